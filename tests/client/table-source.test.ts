/** Files as people send them: how their letters are written, and that the end of a file is no row. */
import { describe, expect, it } from 'vitest';
import { sourceOfFile } from '../../client/yard/patches/table-source.ts';

const TABLE = 'Place,Length,Width,Depth\r\nFährweg 4,1.2,0.8,60\r\n';
const ROWS = [
  ['Place', 'Length', 'Width', 'Depth'],
  ['Fährweg 4', '1.2', '0.8', '60'],
];
const utf16 = (text: string): Buffer => Buffer.from(`\ufeff${text}`, 'utf16le');
const rowsOf = async (bytes: Buffer) => {
  const found = await sourceOfFile(new File([new Uint8Array(bytes)], 'holes.csv'));
  return found.ok ? found.source.rows : found.why;
};

describe('a file of holes is read', () => {
  it.each([
    ['UTF-8', Buffer.from(TABLE)],
    ['UTF-8 with its mark', Buffer.from(`\ufeff${TABLE}`)],
    ['UTF-16, little end first', utf16(TABLE)],
    ['UTF-16, big end first', utf16(TABLE).swap16()],
    ['Western European', Buffer.from(TABLE, 'latin1')],
  ])('as %s', async (_, bytes) => {
    expect(await rowsOf(bytes)).toEqual(ROWS);
  });

  it('or refused in words when it is no text or empty', async () => {
    expect(await rowsOf(Buffer.from('PK\u0003\u0004\u0000\u0000'))).toMatch(/save it as CSV/);
    expect(await rowsOf(Buffer.from(' \r\n'))).toMatch(/nothing in it/);
  });
});
