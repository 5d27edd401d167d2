/** Which instruments share a picture: those of one unit, switches among themselves. */
import { isSwitch, unitOf } from './groups.ts';

export type Plot = {
  readonly key: string;
  readonly unit: string;
  readonly switches: boolean;
  readonly tags: readonly string[];
};

export const plotsOf = (tags: readonly string[]): readonly Plot[] => {
  const plots = new Map<string, { unit: string; switches: boolean; tags: string[] }>();
  for (const tag of tags) {
    const switches = isSwitch(tag);
    const key = switches ? 'switches' : unitOf(tag);
    const there = plots.get(key);
    if (there === undefined) plots.set(key, { unit: unitOf(tag), switches, tags: [tag] });
    else there.tags.push(tag);
  }
  return [...plots].map(([key, plot]) => ({ key, ...plot }));
};

/** Strokes told apart by tone and by dash, so that neither is needed alone. */
export const STROKES: readonly { readonly token: string; readonly dash: readonly number[] }[] = [
  { token: '--ink', dash: [] },
  { token: '--mark', dash: [7, 3] },
  { token: '--warn', dash: [2, 3] },
  { token: '--focus', dash: [10, 3, 2, 3] },
  { token: '--trip', dash: [4, 2] },
  { token: '--soft', dash: [1, 2] },
];
