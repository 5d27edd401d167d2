/** Draws the plain shapes of a picture onto paper. */
import type { Picture, Shape } from '../../../machines/reports/picture.ts';
import { BOLD, COLOURS, FONT, printable } from './look.ts';
import type { Paper } from './paper.ts';

const drawShape = (doc: PDFKit.PDFDocument, shape: Shape): void => {
  const colour = COLOURS[shape.tone];
  switch (shape.is) {
    case 'rect':
      doc.rect(shape.x, shape.y, shape.w, shape.h);
      if (shape.bare === true) doc.lineWidth(0.6).strokeColor(colour).stroke();
      else doc.fillColor(colour).fill();
      return;
    case 'line': {
      const [first, ...rest] = shape.points;
      if (first === undefined) return;
      doc.moveTo(first[0], first[1]);
      for (const [x, y] of rest) doc.lineTo(x, y);
      doc.lineWidth(shape.width).strokeColor(colour);
      if (shape.dash !== undefined) {
        const [on = 1, off = 1] = shape.dash;
        doc.dash(on, { space: off });
      }
      doc.stroke();
      if (shape.dash !== undefined) doc.undash();
      return;
    }
    case 'mark': {
      const { x, y, r } = shape;
      if (shape.form === 'ring') {
        doc
          .circle(x, y, r - 0.4)
          .lineWidth(1.1)
          .strokeColor(colour)
          .stroke();
        return;
      }
      if (shape.form === 'dot') doc.circle(x, y, r);
      else if (shape.form === 'triangle') doc.polygon([x, y - r], [x + r, y + r * 0.8], [x - r, y + r * 0.8]);
      else doc.polygon([x, y - r], [x + r, y], [x, y + r], [x - r, y]);
      doc.fillColor(colour).fill();
      return;
    }
    case 'text': {
      doc
        .font(shape.bold === true ? BOLD : FONT)
        .fontSize(shape.size)
        .fillColor(colour);
      const words = printable(shape.text);
      const w = doc.widthOfString(words);
      const x = shape.anchor === 'start' ? shape.x : shape.anchor === 'end' ? shape.x - w : shape.x - w / 2;
      doc.text(words, x, shape.y, { lineBreak: false, baseline: 'alphabetic' });
    }
  }
};

/** Draws at the pen, scaled with the paper, and moves the pen below. */
export const drawPicture = (paper: Paper, picture: Picture, x: number): void => {
  const { doc, scale } = paper;
  const top = paper.y;
  paper.mark(
    'Figure',
    () => {
      doc.save();
      doc.translate(x, top);
      // Smaller in height only would bend it; narrower too keeps its shape, and the left edge stays.
      doc.scale(scale);
      for (const shape of picture.shapes) drawShape(doc, shape);
      doc.restore();
    },
    picture.alt,
  );
  paper.y += picture.h * scale;
};
