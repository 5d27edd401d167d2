/** How a camera was held, from the EXIF data of a photograph: the one thing of it that is needed to look at it. */

const ORIENTATION = 0x0112;
const SHORT = 3;
const ENTRY_BYTES = 12;

/** EXIF orientation, 1..8, of a TIFF block; 1 when it says nothing or cannot be read. */
export const exifOrientation = (tiff: Buffer): number => {
  if (tiff.length < 14) return 1;
  const order = tiff.toString('latin1', 0, 2);
  if (order !== 'II' && order !== 'MM') return 1;
  const little = order === 'II';
  const u16 = (at: number): number =>
    at + 2 > tiff.length ? 0 : little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at);
  const u32 = (at: number): number =>
    at + 4 > tiff.length ? 0 : little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at);
  if (u16(2) !== 42) return 1;
  const directory = u32(4);
  const count = u16(directory);
  for (let i = 0; i < count; i++) {
    const at = directory + 2 + i * ENTRY_BYTES;
    if (at + ENTRY_BYTES > tiff.length) return 1;
    if (u16(at) !== ORIENTATION || u16(at + 2) !== SHORT) continue;
    const value = u16(at + 8);
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
};

/** A JPEG segment that says how the camera was held and nothing else; empty when it was held upright. */
export const orientationSegment = (orientation: number): Buffer =>
  orientation === 1
    ? Buffer.alloc(0)
    : Buffer.concat([
        Buffer.from([0xff, 0xe1, 0, 34]),
        Buffer.from('Exif\0\0MM\0*\0\0\0\x08\0\x01', 'latin1'),
        Buffer.from([0x01, 0x12, 0, SHORT, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0]),
      ]);
