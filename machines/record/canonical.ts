/** The one text form of a value (RFC 8785), so that the same content always has the same digest. */
import canonicalize from 'canonicalize';
import type { ReadingsBody } from './entry.ts';

/**
 * RFC 8785 text of a JSON value: keys in UTF-16 order, numbers as ECMAScript writes them.
 * Throws on what JSON cannot carry (NaN, infinities, lone surrogates, undefined at the top).
 */
export const canonical = (value: unknown): string => {
  const text = canonicalize(value);
  if (text === undefined) throw new Error('nothing to write: the value is undefined');
  return text;
};

const changesText = (changes: { readonly [tag: string]: number | undefined }): string => {
  let text = '{';
  for (const tag of Object.keys(changes).sort()) {
    const value = changes[tag];
    if (value === undefined) continue;
    if (!Number.isFinite(value)) throw new Error(`reading ${tag} is ${value}: a record holds numbers only`);
    text += `${text.length > 1 ? ',' : ''}"${tag}":${value}`;
  }
  return `${text}}`;
};

/**
 * The same text as `canonical` for a group of readings, several times faster: nine entries of ten
 * are these. Tags are plain ASCII names; a test holds it equal to `canonical`.
 */
export const canonicalReadings = (body: ReadingsBody): string => {
  let rows = '';
  for (const [tick, changes] of body.rows)
    rows += `${rows === '' ? '' : ','}[${tick},${changesText(changes)}]`;
  return `{"from":${body.from},"rows":[${rows}],"to":${body.to}}`;
};
