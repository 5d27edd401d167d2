/** What stays as it is from one sheet to the next: equipment and ways of working, never a reading or what somebody saw. */
import { recall, remember } from '../../live/memory.ts';
import type { Readings } from './drafts.ts';

/** By key of the field. Masses, temperatures, colours and judgements are not among them. */
export const SETTINGS: readonly string[] = [
  'material',
  'of',
  'sieveMm',
  'portions',
  'balance',
  'finesBy',
  'cured',
  'correctionPct',
  'densities',
  'binder',
  'spatula',
  'loadUnit',
  'diameterMm',
  'kind',
  'cutbackGrade',
  'emulsionGrade',
  'drumGrading',
  'salt',
];

const keyOf = (sheet: string): string => `lab-settings-${sheet}`;

/** Settings of the last sheet of this kind entered at this console. */
export function lastSettings(sheet: string): Readings {
  try {
    const kept: unknown = JSON.parse(recall(keyOf(sheet)) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    return Object.fromEntries(
      Object.entries(kept).filter(
        (entry): entry is [string, string] => SETTINGS.includes(entry[0]) && typeof entry[1] === 'string',
      ),
    );
  } catch {
    return {};
  }
}

export const keepSettings = (sheet: string, readings: Readings): void =>
  remember(
    keyOf(sheet),
    JSON.stringify(Object.fromEntries(Object.entries(readings).filter(([key]) => SETTINGS.includes(key)))),
  );
