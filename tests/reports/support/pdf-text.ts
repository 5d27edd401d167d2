/** Reads back the words of a PDF that uses the standard fonts: enough to compare the paper with the data. */
import { inflateSync } from 'node:zlib';

const CP1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

const decoded = (hex: string): string =>
  (hex.match(/../g) ?? [])
    .map((pair) => {
      const code = Number.parseInt(pair, 16);
      return code >= 0x80 && code <= 0x9f ? (CP1252[code - 0x80] ?? '') : String.fromCharCode(code);
    })
    .join('');

type Objects = ReadonlyMap<number, { readonly dict: string; readonly stream: string | null }>;

const objectsOf = (pdf: Buffer): Objects => {
  const text = pdf.toString('latin1');
  const objects = new Map<number, { dict: string; stream: string | null }>();
  for (const found of text.matchAll(/(\d+) 0 obj\n/g)) {
    const start = (found.index ?? 0) + found[0].length;
    const end = text.indexOf('endobj', start);
    const body = text.slice(start, end);
    const at = body.indexOf('stream\n');
    if (at < 0) objects.set(Number(found[1]), { dict: body, stream: null });
    else {
      const length = Number(/\/Length (\d+)/.exec(body)?.[1]);
      const raw = pdf.subarray(start + at + 7, start + at + 7 + length);
      const isPacked = body.slice(0, at).includes('/FlateDecode');
      const stream = (isPacked ? inflateSync(raw) : raw).toString('latin1');
      objects.set(Number(found[1]), { dict: body.slice(0, at), stream });
    }
  }
  return objects;
};

export type PdfRead = {
  /** Pieces of words of each page, in the order they were drawn. */
  readonly pages: readonly (readonly string[])[];
  /** Drawing instructions of each page. */
  readonly streams: readonly string[];
  readonly dicts: readonly string[];
};

export const readPdf = (pdf: Buffer): PdfRead => {
  const objects = objectsOf(pdf);
  const all = [...objects.values()];
  const kids = /\/Kids \[([^\]]*)\]/.exec(all.find(({ dict }) => /\/Type \/Pages\b/.test(dict))?.dict ?? '');
  const numbers = [...(kids?.[1] ?? '').matchAll(/(\d+) 0 R/g)].map((found) => Number(found[1]));
  const streams = numbers.map((n) => {
    const contents = Number(/\/Contents (\d+) 0 R/.exec(objects.get(n)?.dict ?? '')?.[1]);
    return objects.get(contents)?.stream ?? '';
  });
  const pages = streams.map((stream) =>
    [...stream.matchAll(/\[([^\]]*)\] TJ/g)].map((found) =>
      [...(found[1] ?? '').matchAll(/<([0-9a-f]*)>/g)].map((piece) => decoded(piece[1] ?? '')).join(''),
    ),
  );
  return { pages, streams, dicts: all.map(({ dict }) => dict) };
};
