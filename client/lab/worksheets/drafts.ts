/** Readings typed in but not yet entered: kept by this browser so that a reload loses nothing. A draft is not in the record. */
import { recall, remember } from '../../live/memory.ts';

export type Readings = { readonly [key: string]: string };
export type Draft = {
  readonly readings: Readings;
  /** When it was last touched, by this console's clock. */
  readonly savedAt: string;
  /** The readings came from the simulated bench. */
  readonly simulated: boolean;
};

const LIST = 'lab-drafts';
/** Drafts nobody came back to; the oldest go first. */
const MOST_DRAFTS = 40;

const isDraft = (value: unknown): value is Draft =>
  typeof value === 'object' &&
  value !== null &&
  'readings' in value &&
  typeof value.readings === 'object' &&
  value.readings !== null &&
  Object.values(value.readings).every((one) => typeof one === 'string') &&
  'savedAt' in value &&
  typeof value.savedAt === 'string';

const all = (): { [key: string]: Draft } => {
  try {
    const kept: unknown = JSON.parse(recall(LIST) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    return Object.fromEntries(Object.entries(kept).filter(([, value]) => isDraft(value)));
  } catch {
    // Not ours or cut off half way: nothing that could be shown.
    return {};
  }
};

export const draftOf = (key: string): Draft | null => all()[key] ?? null;

/** Keys of the drafts there are, newest first. */
export const draftKeys = (): readonly string[] =>
  Object.entries(all())
    .sort(([, a], [, b]) => (a.savedAt < b.savedAt ? 1 : -1))
    .map(([key]) => key);

export function keepDraft(key: string, draft: Draft): void {
  const kept = Object.entries({ ...all(), [key]: draft })
    .sort(([, a], [, b]) => (a.savedAt < b.savedAt ? 1 : -1))
    .slice(0, MOST_DRAFTS);
  remember(LIST, JSON.stringify(Object.fromEntries(kept)));
}

export function dropDraft(key: string): void {
  const { [key]: _gone, ...kept } = all();
  remember(LIST, JSON.stringify(kept));
}
