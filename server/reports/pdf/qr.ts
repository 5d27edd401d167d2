/** A QR square drawn as runs of black, `width` points wide, without a margin of its own. */
import { create } from 'qrcode';
import { COLOURS } from './look.ts';
import type { Paper } from './paper.ts';

export const drawQr = (paper: Paper, words: string, x: number, y: number, width: number): void => {
  const { modules } = create(words, { errorCorrectionLevel: 'M' });
  const side = width / modules.size;
  paper.doc.fillColor(COLOURS.ink);
  for (let row = 0; row < modules.size; row += 1) {
    let from = -1;
    for (let column = 0; column <= modules.size; column += 1) {
      const dark = column < modules.size && modules.get(row, column) === 1;
      if (dark && from < 0) from = column;
      if (dark || from < 0) continue;
      paper.doc.rect(x + from * side, y + row * side, (column - from) * side, side);
      from = -1;
    }
  }
  paper.doc.fill();
};
