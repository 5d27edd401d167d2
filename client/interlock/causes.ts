/** The requirements of the interlocks as the pages list them: in groups, each with its state now. */
import {
  CAUSE_IDS,
  CAUSES,
  type InterlockCauseId,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import type { CausesView } from '../../machines/line/view.types.ts';

export type CauseState = 'clear' | 'holds' | 'latched';

export const GROUPS = [
  { prefix: 'FT', title: 'Trips', about: 'Latch everything shut until a person resets them.' },
  {
    prefix: 'FI',
    title: 'Permissives',
    about: 'Hold back binder or flame while they are not met; met again by themselves.',
  },
  { prefix: 'FB', title: 'Burner safeguards', about: 'Purges and lockouts of the dryer burner.' },
  { prefix: 'TC', title: 'Cutback tank', about: 'What must be so before the cutback tank is heated.' },
  { prefix: 'TE', title: 'Emulsion tank', about: 'What must be so before the emulsion tank is heated.' },
] as const;

export const idsOf = (prefix: string): readonly InterlockCauseId[] =>
  CAUSE_IDS.filter((id) => id.startsWith(prefix));

export const stateOf = (id: InterlockCauseId, { holding, latched }: CausesView): CauseState =>
  latched.includes(id) ? 'latched' : holding.includes(id) ? 'holds' : 'clear';

const isTrip = (id: InterlockCauseId): boolean => id.startsWith('FT');

export const stateWords = (id: InterlockCauseId, state: CauseState): string => {
  if (state === 'latched') return 'latched';
  if (isTrip(id)) return state === 'holds' ? 'stands' : 'not standing';
  return state === 'holds' ? 'not met' : 'met';
};

/** What is so now, in the words of the requirement. */
export const nowWords = (id: InterlockCauseId, state: CauseState): string =>
  state === 'clear' ? CAUSES[id].words.met : CAUSES[id].words.unmet;
