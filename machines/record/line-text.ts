/** One entry as a line of an export: its canonical text with its hash in it, and back to what was hashed. */

/** Everything of a line behind the hash has a fixed form, so the last such place is the entry's own hash. */
const KIND_KEY = ',"kind":"';
const HASH_KEY = ',"hash":"';
const HASH_DIGITS = 64;

/** The line (without line feed) of an entry, from the text its hash was taken over. */
export const lineOf = (text: string, hash: string): string => {
  const at = text.lastIndexOf(KIND_KEY);
  return `${text.slice(0, at)}${HASH_KEY}${hash}"${text.slice(at)}`;
};

/** Text and hash of a line; null when no hash stands where it must. */
export const textOfLine = (line: string): { readonly text: string; readonly hash: string } | null => {
  const kindAt = line.lastIndexOf(KIND_KEY);
  const hashAt = kindAt - HASH_DIGITS - 1;
  const keyAt = hashAt - HASH_KEY.length;
  if (keyAt < 0 || !line.startsWith(HASH_KEY, keyAt) || line[kindAt - 1] !== '"') return null;
  const hash = line.slice(hashAt, kindAt - 1);
  if (!/^[0-9a-f]{64}$/.test(hash)) return null;
  return { text: line.slice(0, keyAt) + line.slice(kindAt), hash };
};
