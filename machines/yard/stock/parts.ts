/** Whole grams by where they came from: taken first in, first out from a heap, or in proportion from what is mixed. */
import { apportion } from '../trace/apportion.ts';

/** So many grams of one source: a delivery, opening stock, or what no paper covers. */
export type Part = { readonly source: string; readonly grams: number };
export type Parts = readonly Part[];

export const NO_PARTS: Parts = [];

/** A whole and not negative number of grams, or an error: nothing else is ever booked. */
export const wholeGrams = (grams: number): number => {
  if (!Number.isSafeInteger(grams) || grams < 0) throw new Error(`cannot book ${grams} g`);
  return grams;
};

/** Grams of a mass in kg, rounded to the gram. */
export const gramsOf = (kg: number): number => Math.round(kg * 1000);

export const sumOf = (parts: readonly { readonly grams: number }[]): number =>
  parts.reduce((sum, part) => sum + part.grams, 0);

/** Parts put behind others; a source that stands last already grows instead. */
export const behind = (parts: Parts, more: Parts): Parts => {
  const out = [...parts];
  for (const part of more) {
    if (part.grams === 0) continue;
    const last = out.at(-1);
    if (last?.source === part.source)
      out[out.length - 1] = { source: part.source, grams: last.grams + part.grams };
    else out.push(part);
  }
  return out;
};

/** The same grams with each source named once, in the order first met. */
export const bySource = (parts: Parts): Parts => {
  const sums = new Map<string, number>();
  for (const { source, grams } of parts) sums.set(source, (sums.get(source) ?? 0) + grams);
  return [...sums].filter(([, grams]) => grams > 0).map(([source, grams]) => ({ source, grams }));
};

export type Taken = { readonly taken: Parts; readonly left: Parts };

/** The oldest grams first; no more than there are. */
export const takeOldest = (parts: Parts, grams: number): Taken => {
  let want = wholeGrams(grams);
  const taken: Part[] = [];
  const left: Part[] = [];
  for (const part of parts) {
    const out = Math.min(part.grams, want);
    want -= out;
    if (out > 0) taken.push({ source: part.source, grams: out });
    if (part.grams > out) left.push({ source: part.source, grams: part.grams - out });
  }
  return { taken, left };
};

/** In proportion to what each source holds, as from a well mixed tank; no more than there is. */
export const takeMixed = (parts: Parts, grams: number): Taken => {
  const mixed = bySource(parts);
  const shares = apportion(
    mixed.map((part) => part.grams),
    Math.min(wholeGrams(grams), sumOf(mixed)),
  );
  const taken = mixed.map((part, i) => ({ source: part.source, grams: shares[i] ?? 0 }));
  const left = mixed.map((part, i) => ({ source: part.source, grams: part.grams - (shares[i] ?? 0) }));
  return { taken: taken.filter((part) => part.grams > 0), left: left.filter((part) => part.grams > 0) };
};
