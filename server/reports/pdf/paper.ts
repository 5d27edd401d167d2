/** A PDF being written from top to bottom: where the pen stands, when a page is full, what each mark means. */
import PDFDocument from 'pdfkit';
import type { Tone } from '../../../machines/reports/picture.ts';
import { BOLD, COLOURS, FONT, PAGE, printable, TEXT_W } from './look.ts';

type Element = PDFKit.PDFStructureElement;

export type PaperInfo = { readonly title: string; readonly subject: string; readonly dated: Date };

export type TextLook = {
  readonly size: number;
  readonly tone?: Tone;
  readonly bold?: boolean;
  readonly align?: 'left' | 'right' | 'center';
};

export class Paper {
  readonly doc: PDFKit.PDFDocument;
  /** Everything is drawn at this size: below 1 when a sheet must fit on one page. */
  readonly scale: number;
  y: number = PAGE.top;
  #root: Element;
  #parents: Element[];
  #chunks: Buffer[] = [];
  #onPage: ((paper: Paper) => void) | null = null;
  #opened = false;
  #widths = new Map<string, number>();

  constructor({ title, subject, dated }: PaperInfo, scale: number) {
    this.scale = scale;
    this.doc = new PDFDocument({
      size: 'A4',
      margin: 0,
      bufferPages: true,
      autoFirstPage: false,
      pdfVersion: '1.7',
      tagged: true,
      lang: 'en-GB',
      displayTitle: true,
      info: {
        Title: printable(title),
        Subject: printable(subject),
        Creator: 'Patchyard',
        Producer: 'Patchyard',
        // Fixed by the record: the same record gives the same bytes.
        CreationDate: dated,
        ModDate: dated,
      },
    });
    this.doc.on('data', (bytes: Buffer) => this.#chunks.push(bytes));
    this.#root = this.doc.struct('Document');
    this.doc.addStructure(this.#root);
    this.#parents = [this.#root];
  }

  get bottom(): number {
    return PAGE.h - PAGE.bottom;
  }

  get pages(): number {
    return this.doc.bufferedPageRange().count;
  }

  /** Called on every new page but the first, for the running head. */
  onPage(draw: (paper: Paper) => void): void {
    this.#onPage = draw;
  }

  newPage(): void {
    this.doc.addPage({ size: 'A4', margin: 0 });
    this.y = PAGE.top;
    if (this.#opened) this.#onPage?.(this);
    this.#opened = true;
  }

  /** Begins a new page when less than `h` is left; true when it did. */
  room(h: number): boolean {
    if (this.y + h <= this.bottom) return false;
    this.newPage();
    return true;
  }

  /** Everything marked inside stands under this element. */
  group(type: string, inside: () => void): void {
    const element = this.doc.struct(type);
    this.#parents.at(-1)?.add(element);
    this.#parents.push(element);
    inside();
    this.#parents.pop();
    element.end();
  }

  /** Draws something that means something: a heading, a paragraph, a cell, a picture with its words. */
  mark(type: string, draw: () => void, alt?: string): void {
    const content = this.doc.markStructureContent(type);
    draw();
    this.doc.endMarkedContent();
    const element = this.doc.struct(type, alt === undefined ? {} : { alt: printable(alt) }, [content]);
    element.end();
    this.#parents.at(-1)?.add(element);
  }

  /** Draws what a reader by ear leaves out: rules, tints, running heads. */
  artifact(draw: () => void, type: 'Layout' | 'Pagination' = 'Layout'): void {
    this.doc.markContent('Artifact', { type });
    draw();
    this.doc.endMarkedContent();
  }

  font({ size, tone = 'ink', bold = false }: TextLook): void {
    this.doc
      .font(bold ? BOLD : FONT)
      .fontSize(size * this.scale)
      .fillColor(COLOURS[tone]);
  }

  /** Width of words already printable, points. Widths grow with the size, so each is measured once. */
  #width(words: string, { size, bold = false }: TextLook): number {
    const key = `${bold ? 'b' : 'r'}${words}`;
    let unit = this.#widths.get(key);
    if (unit === undefined) {
      this.doc.font(bold ? BOLD : FONT).fontSize(1000);
      unit = this.doc.widthOfString(words) / 1000;
      this.#widths.set(key, unit);
    }
    return unit * size * this.scale;
  }

  widthOf(words: string, look: TextLook): number {
    return this.#width(printable(words), look);
  }

  /** One line of words with its top at y. */
  line(words: string, x: number, y: number, w: number, look: TextLook): void {
    const text = printable(words);
    if (text === '') return;
    const width = look.align === undefined || look.align === 'left' ? 0 : this.#width(text, look);
    this.font(look);
    const at = look.align === 'right' ? x + w - width : look.align === 'center' ? x + (w - width) / 2 : x;
    this.doc.text(text, at, y, { lineBreak: false });
  }

  /** Words broken into lines no wider than w; a word longer than a line is cut. */
  wrap(words: string, w: number, look: TextLook): string[] {
    const fits = (text: string): boolean => this.#width(text, look) <= w;
    const whole = printable(words);
    if (fits(whole)) return [whole];
    const lines: string[] = [];
    let line = '';
    for (const word of whole.split(/ +/)) {
      let left = word;
      const joined = line === '' ? left : `${line} ${left}`;
      if (fits(joined)) {
        line = joined;
        continue;
      }
      if (line !== '') lines.push(line);
      while (!fits(left)) {
        let n = left.length - 1;
        while (n > 1 && !fits(left.slice(0, n))) n -= 1;
        lines.push(left.slice(0, Math.max(1, n)));
        left = left.slice(Math.max(1, n));
      }
      line = left;
    }
    return [...lines, line];
  }

  /** A paragraph at the pen, broken over pages line by line; the pen ends below it. */
  paragraph(words: string, look: TextLook, type = 'P'): void {
    const lead = look.size * 1.28 * this.scale;
    const lines = this.wrap(words, TEXT_W, look);
    this.room(Math.min(lines.length, 2) * lead);
    let rest = lines;
    while (rest.length > 0) {
      const fit = Math.max(1, Math.floor((this.bottom - this.y) / lead));
      const now = rest.slice(0, fit);
      rest = rest.slice(fit);
      const top = this.y;
      this.mark(type, () => {
        now.forEach((text, i) => {
          this.line(text, PAGE.left, top + i * lead, TEXT_W, look);
        });
      });
      this.y += now.length * lead;
      if (rest.length > 0) this.newPage();
    }
  }

  async bytes(): Promise<Buffer> {
    this.#root.end();
    const done = new Promise<Buffer>((resolve, reject) => {
      this.doc.on('end', () => resolve(Buffer.concat(this.#chunks)));
      this.doc.on('error', reject);
    });
    this.doc.end();
    return done;
  }
}
