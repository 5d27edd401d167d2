/** Bytes to text and back, without any library of a particular place. */

export const toHex = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += (byte < 16 ? '0' : '') + byte.toString(16);
  return text;
};

/** Lower-case hex only; null when it is anything else. */
export const fromHex = (text: string): Uint8Array | null => {
  if (text.length % 2 !== 0 || !/^[0-9a-f]*$/.test(text)) return null;
  const bytes = new Uint8Array(text.length / 2);
  for (let i = 0; i < bytes.length; i++) bytes[i] = Number.parseInt(text.slice(2 * i, 2 * i + 2), 16);
  return bytes;
};

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** RFC 4648 base64 with padding. */
export const toBase64 = (bytes: Uint8Array): string => {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const left = bytes.length - i;
    const word = ((bytes[i] ?? 0) << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    text += ALPHABET.charAt(word >> 18) + ALPHABET.charAt((word >> 12) & 63);
    text += left > 1 ? ALPHABET.charAt((word >> 6) & 63) : '=';
    text += left > 2 ? ALPHABET.charAt(word & 63) : '=';
  }
  return text;
};

/** Null when the text is not the one base64 form of some bytes: padded, nothing over, unused bits zero. */
export const fromBase64 = (text: string): Uint8Array | null => {
  if (text.length % 4 !== 0 || !/^[A-Za-z0-9+/]*={0,2}$/.test(text)) return null;
  const bare = text.replace(/=+$/, '');
  const bytes = new Uint8Array(Math.floor((bare.length * 3) / 4));
  let word = 0;
  let bits = 0;
  let at = 0;
  for (const letter of bare) {
    word = ((word << 6) | ALPHABET.indexOf(letter)) & 0xffffff;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes[at++] = (word >> bits) & 255;
    }
  }
  return toBase64(bytes) === text ? bytes : null;
};

/** UTF-8 of well-formed text; what RFC 8785 lets through has no lone surrogates. */
export const utf8 = (text: string): Uint8Array => {
  const bytes: number[] = [];
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63));
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
    else
      bytes.push(
        0xf0 | (code >> 18),
        0x80 | ((code >> 12) & 63),
        0x80 | ((code >> 6) & 63),
        0x80 | (code & 63),
      );
  }
  return Uint8Array.from(bytes);
};
