/** What a trainer or trainee asked for, as the act of a drill that is kept and done again. */
import { CALLED, type Called } from '../../machines/drills/drill.schema.ts';
import type { Intervention } from '../../machines/drills/run.types.ts';
import type { FieldAsk } from '../../machines/field/outputs.ts';
import type { Tag } from '../../machines/field/tags.ts';
import type { FaultAsk, SessionAsk } from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { PlainError } from '../plain-error.ts';

const fieldAskOf = (fault: FaultAsk): FieldAsk => {
  if (fault.of === 'equipment') return { ask: 'equipmentFault', equipment: fault.equipment, on: fault.on };
  const { perHour, offPct } = fault;
  const tag = fault.tag as Tag;
  const kind = fault.fault;
  if (kind === null) return { ask: 'instrumentFault', tag, fault: null };
  if (kind === 'drift') return { ask: 'instrumentFault', tag, fault: { fault: 'drift', perHour } };
  if (kind === 'span') return { ask: 'instrumentFault', tag, fault: { fault: 'span', offPct } };
  return { ask: 'instrumentFault', tag, fault: { fault: kind } };
};

type ActAsk = Extract<SessionAsk, { do: 'fault' | 'message' | 'finish' | 'reply' | 'call' | 'hint' }>;

/** Throws PlainError when somebody is called who cannot be. */
export const interventionOf = (ask: ActAsk, person: Person): Intervention => {
  switch (ask.do) {
    case 'fault':
      return { do: 'ask', by: person.name, ask: fieldAskOf(ask.fault as FaultAsk) };
    case 'message':
      return { do: 'message', by: person.name, text: ask.text };
    case 'finish':
      return { do: 'end', by: person.name };
    case 'reply':
      return { do: 'reply', message: ask.message, answer: ask.answer };
    case 'hint':
      return { do: 'hint' };
    case 'call': {
      if (!(CALLED as readonly string[]).includes(ask.who))
        throw new PlainError(`Nobody called ${ask.who} can be called; there are: ${CALLED.join(', ')}.`);
      return { do: 'call', who: ask.who as Called };
    }
  }
};
