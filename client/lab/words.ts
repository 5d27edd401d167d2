/** The lab's words and marks, the same on every part of its page. */
import type { LotState } from '../../machines/lab/facts.ts';
import type { LabSample } from '../../machines/lab/state.ts';
import { propertyOf } from '../../machines/scenario/lab-tests.ts';
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
  sampling: 'Samples are being taken. It stays in its bay.',
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
export const whenWords = (at: string): string => {
  const [date = '', time = ''] = at.split('T');
  const [, month = '1', day = '1'] = date.split('-');
  const name = MONTHS[Number(month) - 1] ?? '';
  return time === '' ? `${Number(day)} ${name}` : `${Number(day)} ${name}, ${time.slice(0, 5)}`;
};
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** What a property id of a specification is called by people. */
export function propertyWords(property: string): string {
  const words = propertyOf(property)?.words ?? property;
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
