/** The lab's words and marks, the same on every part of its page. */
import type { LotState } from '../../machines/lab/facts.ts';
import type { LabSample } from '../../machines/lab/state.ts';
import { propertyOf } from '../../machines/scenario/lab-tests.ts';
import { formatDayTime } from '../format/format.ts';
import type { Shape } from '../parts/mark.tsx';

export const LOT_STATE_SHAPE: { readonly [K in LotState]: Shape } = {
  open: 'ring',
  closed: 'ring',
  sampling: 'ring',
  testing: 'dot',
  accepted: 'check',
  'on hold': 'flag',
  rejected: 'triangle',
  'released by concession': 'diamond',
};

/** One sentence on where the lot stands and what that means for it. */
export const LOT_STATE_WORDS: { readonly [K in LotState]: string } = {
  open: 'Batches still go into it. It stays in its bay.',
  closed: 'No more batches go into it. It stays in its bay until the lab has decided.',
  sampling: 'Samples are being taken or wait to be logged. It stays in its bay.',
  testing: 'Samples are being tested. It stays in its bay.',
  accepted: 'It meets its specification and may leave the yard.',
  'on hold': 'It may not leave the yard until somebody has decided.',
  rejected: 'It may not leave the yard as patching mix.',
  'released by concession': 'It may leave the yard though it does not meet its specification.',
};

export const SAMPLE_SHAPE: { readonly [K in LabSample['state']]: Shape } = {
  ahead: 'ring',
  due: 'flag',
  taken: 'dot',
  missed: 'triangle',
  'not reached': 'ring',
  logged: 'check',
};

export const isAbnormal = (state: LotState): boolean => state === 'on hold' || state === 'rejected';

/** "12 May, 14:05"; the plant's own clock. */
export const whenWords = formatDayTime;

/** A mix by the name people know it by; its id where the name is not known any more. */
export const mixName = (
  mixes: readonly { readonly id: string; readonly version: number; readonly name: string }[],
  id: string,
  version: number | null = null,
): string =>
  (mixes.find((one) => one.id === id && one.version === version) ?? mixes.findLast((one) => one.id === id))
    ?.name ?? id;

/** What was noted with a lot, as people say it: names for ids, "opening stock" for what the plant began with. */
export function labelWords(
  value: string,
  people: readonly { readonly id: string; readonly name: string }[],
  mixes: Parameters<typeof mixName>[0],
): string {
  const [, mix, version] = /^([a-z0-9-]+) v(\d+)$/.exec(value) ?? [];
  if (mix !== undefined) return `${mixName(mixes, mix, Number(version))}, version ${version}`;
  return value
    .split(', ')
    .map((one) => (one === 'OPENING' ? 'opening stock' : personName(people, one)))
    .join(', ');
}

/** What a property id of a specification is called by people. */
export function propertyWords(property: string): string {
  // Yes and no are said as such beside it.
  const words = (propertyOf(property)?.words ?? property).replace(/ \(1 yes, 0 no\)$/, '');
  const whole = words.charAt(0).toUpperCase() + words.slice(1);
  return property === 'bondMPa' ? `${whole}, MPa` : whole;
}

/** A result as it is reported: with as many decimals as its property is told with. */
export function valueWords(property: string, value: number): string {
  if (property === 'workable') return value >= 1 ? 'yes' : 'no';
  const known = propertyOf(property);
  const text = value.toFixed(known?.decimals ?? 2).replace(/^-/, '−');
  return known === null || known.unit === '' ? text : `${text}\u00a0${known.unit}`;
}

/** Name of a person by id where the people are known, else the id itself. */
export const personName = (
  people: readonly { readonly id: string; readonly name: string }[],
  id: string | null,
): string => (id === null ? 'nobody' : (people.find((one) => one.id === id)?.name ?? id));
