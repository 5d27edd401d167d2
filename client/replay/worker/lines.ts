/** Entries of the record as lines a person reads and jumps between. */
import type { Entry } from '../../../machines/record/entry.ts';
import { lineOf, type RecordLine } from '../../records/entries.ts';

/** What a line can be jumped to as. */
export type Landmark = 'alarm' | 'trip' | 'refusal' | 'sample' | 'person';

export type ReplayLine = RecordLine & {
  readonly tick: number;
  readonly landmark: Landmark | null;
  /** Reasons, for a refusal. */
  readonly because: readonly string[];
};

const TICK_MS = 100;
const NO_REASONS: readonly string[] = [];

/** States an alarm is in when it has just come up (ISA-18.2). */
const COMES_UP = 'unacknowledged';

const landmarkOf = (entry: Entry): Landmark | null => {
  if (entry.kind === 'command') return 'person';
  if (entry.kind !== 'fact') return null;
  const { fact } = entry.body;
  switch (fact.is) {
    case 'commandRefused':
      return 'refusal';
    case 'tripLatched':
    case 'emergencyStopPressed':
      return 'trip';
    case 'alarmChanged':
      return fact.state === COMES_UP ? 'alarm' : null;
    case 'sampleDue':
    case 'sampleMissed':
    case 'sampleTaken':
      return 'sample';
    default:
      return null;
  }
};

const plainly = (value: unknown): string => {
  const text = JSON.stringify(value) ?? '';
  return text.length > 200 ? `${text.slice(0, 200)}…` : text;
};

/** Kinds and facts this program has no words for (from another version) are shown as they stand in the record. */
const wordsOf = (entry: Entry): RecordLine => {
  try {
    const line = lineOf(entry);
    if (line !== null && typeof line.text === 'string') return line;
  } catch {
    // Falls through: shown plainly.
  }
  const { seq, atMs, wall, hash } = entry;
  return { seq, atMs, wall, hash, sort: 'note', text: `${entry.kind}: ${plainly(entry.body)}`, by: '' };
};

export const replayLineOf = (entry: Entry): ReplayLine => {
  const body = entry.body as { readonly tick?: unknown };
  const tick = typeof body.tick === 'number' ? body.tick : Math.round(entry.atMs / TICK_MS);
  const refused = entry.kind === 'fact' && entry.body.fact.is === 'commandRefused' ? entry.body.fact : null;
  return {
    ...wordsOf(entry),
    tick,
    landmark: landmarkOf(entry),
    because: refused === null ? NO_REASONS : refused.because,
  };
};
