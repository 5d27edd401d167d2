/**
 * Photographs as they are kept: JPEG or PNG by what is in them, never by what they are called, and nothing but the
 * picture. Where and with what it was taken goes; how it is to be turned is told beside it, and kept in a JPEG.
 */
import { crc32 } from 'node:zlib';
import { exifOrientation, orientationSegment } from './photo-exif.ts';

export type Photo = {
  readonly type: 'image/jpeg' | 'image/png';
  readonly bytes: Buffer;
  readonly width: number;
  readonly height: number;
  /** 1..8 as EXIF has it; 1: as it is. */
  readonly orientation: number;
};
export type Stripped =
  | { readonly ok: true; readonly photo: Photo }
  | { readonly ok: false; readonly why: string };

/** Larger ones would fill the memory of whoever looks at them. */
const SIDE_LIMIT = 12_000;
const PIXEL_LIMIT = 60_000_000;

const no = (why: string): Stripped => ({ ok: false, why });
const CUT_SHORT = 'The photograph was cut short on its way: send it again.';
const BROKEN = 'The photograph is damaged: take it again, or save it anew and send that.';

const whyTooLarge = (width: number, height: number): string | null => {
  if (width < 1 || height < 1) return BROKEN;
  return width > SIDE_LIMIT || height > SIDE_LIMIT || width * height > PIXEL_LIMIT
    ? `The photograph is ${width} × ${height} pixels: at most ${SIDE_LIMIT} a side and ${PIXEL_LIMIT / 1e6} million in all. Make it smaller first.`
    : null;
};

const PNG_SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const PNG_KEPT: ReadonlySet<string> = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'gAMA', 'sRGB']);
const PNG_AROUND = 12;

const stripPng = (bytes: Buffer): Stripped => {
  const kept: Buffer[] = [PNG_SIGNATURE];
  let at = PNG_SIGNATURE.length;
  let [width, height, orientation] = [0, 0, 1];
  let hasData = false;
  while (at + PNG_AROUND <= bytes.length) {
    const length = bytes.readUInt32BE(at);
    const end = at + PNG_AROUND + length;
    if (end > bytes.length) return no(CUT_SHORT);
    const type = bytes.toString('latin1', at + 4, at + 8);
    if (crc32(bytes.subarray(at + 4, end - 4)) !== bytes.readUInt32BE(end - 4)) return no(BROKEN);
    if ((type === 'IHDR') !== (at === PNG_SIGNATURE.length)) return no(BROKEN);
    if (type === 'IHDR') {
      if (length !== 13) return no(BROKEN);
      [width, height] = [bytes.readUInt32BE(at + 8), bytes.readUInt32BE(at + 12)];
    }
    if (type === 'IDAT') hasData = true;
    if (type === 'eXIf') orientation = exifOrientation(bytes.subarray(at + 8, end - 4));
    // A kind we do not know that is needed to draw the picture: without it the rest is not the picture.
    if (!PNG_KEPT.has(type) && type[0] === type[0]?.toUpperCase()) return no(BROKEN);
    if (PNG_KEPT.has(type)) kept.push(bytes.subarray(at, end));
    at = end;
    if (type !== 'IEND') continue;
    const large = whyTooLarge(width, height);
    if (large !== null) return no(large);
    if (!hasData) return no(BROKEN);
    return {
      ok: true,
      photo: { type: 'image/png', bytes: Buffer.concat(kept), width, height, orientation },
    };
  }
  return no(CUT_SHORT);
};

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const APP0 = 0xe0;
const APP1 = 0xe1;
const APP14 = 0xee;
const APP15 = 0xef;
const COM = 0xfe;
const EXIF = Buffer.from('Exif\0\0', 'latin1');
const JFIF_LENGTH = 16;

const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
/** Markers that stand alone within the picture's data: stuffing and restarts. */
const isWithinData = (marker: number): boolean => marker === 0 || (marker >= 0xd0 && marker <= 0xd7);

/** The segment as it is kept; null when it goes. JFIF says how dense pixels are; Adobe's 14 how colours are meant. */
const keptSegment = (marker: number, segment: Buffer): Buffer | null => {
  if (marker === COM) return null;
  if (marker === APP0) {
    if (segment.length < JFIF_LENGTH + 2 || segment.toString('latin1', 4, 9) !== 'JFIF\0') return null;
    // Without the small picture that may stand behind it.
    const jfif = Buffer.from(segment.subarray(0, JFIF_LENGTH + 2));
    jfif.writeUInt16BE(JFIF_LENGTH, 2);
    jfif[16] = 0;
    jfif[17] = 0;
    return jfif;
  }
  if (marker === APP14) return segment.toString('latin1', 4, 9) === 'Adobe' ? segment.subarray(0, 16) : null;
  return marker >= APP1 && marker <= APP15 ? null : segment;
};

/** An Adobe segment of another length than 14 is written anew with it. */
const fixedLength = (marker: number, segment: Buffer): Buffer => {
  if (marker !== APP14) return segment;
  const fixed = Buffer.from(segment);
  fixed.writeUInt16BE(fixed.length - 2, 2);
  return fixed;
};

/** Where the picture's data ends: at the next marker that does not belong to it. */
const endOfData = (bytes: Buffer, from: number): number => {
  for (let at = from; at + 1 < bytes.length; at++)
    if (bytes[at] === 0xff && bytes[at + 1] !== 0xff && !isWithinData(bytes[at + 1] as number)) return at;
  return -1;
};

const stripJpeg = (bytes: Buffer): Stripped => {
  const kept: Buffer[] = [Buffer.from([0xff, SOI])];
  let [width, height, orientation] = [0, 0, 1];
  let hasData = false;
  let at = 2;
  while (at + 2 <= bytes.length) {
    if (bytes[at] !== 0xff) return no(BROKEN);
    const marker = bytes[at + 1] as number;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === EOI) {
      if (!hasData || width === 0) return no(BROKEN);
      const large = whyTooLarge(width, height);
      if (large !== null) return no(large);
      kept.push(Buffer.from([0xff, EOI]));
      // Browsers turn a picture by this one entry; without it a photograph taken upright would lie on its side.
      kept.splice(kept[1]?.[1] === APP0 ? 2 : 1, 0, orientationSegment(orientation));
      return {
        ok: true,
        photo: { type: 'image/jpeg', bytes: Buffer.concat(kept), width, height, orientation },
      };
    }
    if (at + 4 > bytes.length) return no(CUT_SHORT);
    const length = bytes.readUInt16BE(at + 2);
    const end = at + 2 + length;
    if (length < 2) return no(BROKEN);
    if (end > bytes.length) return no(CUT_SHORT);
    const segment = bytes.subarray(at, end);
    if (marker === APP1 && segment.subarray(4, 10).equals(EXIF))
      orientation = exifOrientation(segment.subarray(10));
    if (isFrame(marker)) {
      if (segment.length < 9) return no(BROKEN);
      [height, width] = [segment.readUInt16BE(5), segment.readUInt16BE(7)];
    }
    const stays = keptSegment(marker, segment);
    if (stays !== null) kept.push(fixedLength(marker, stays));
    at = end;
    if (marker !== SOS) continue;
    const dataEnd = endOfData(bytes, at);
    if (dataEnd < 0) return no(CUT_SHORT);
    kept.push(bytes.subarray(at, dataEnd));
    hasData = true;
    at = dataEnd;
  }
  return no(CUT_SHORT);
};

/** The photograph without anything that tells of its maker, or words why it cannot be kept. */
export const stripPhoto = (bytes: Buffer): Stripped => {
  if (bytes.length === 0) return no('Nothing was sent: choose a photograph.');
  if (bytes.subarray(0, 8).equals(PNG_SIGNATURE)) return stripPng(bytes);
  if (bytes[0] === 0xff && bytes[1] === SOI && bytes[2] === 0xff) return stripJpeg(bytes);
  return no('This is neither a JPEG nor a PNG photograph, whatever its name says: save it as one of them.');
};
