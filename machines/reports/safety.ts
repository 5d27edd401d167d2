/** Work on the protection itself in words: proof tests, inhibits, hot work, deliveries, doubts. */
import type { Fact, Who } from '../line/facts.ts';
import { causeOf } from './cause.ts';

export type SafetyWords = {
  readonly what: string;
  readonly by: Who | null;
  /** Something stood open or failed. */
  readonly look: boolean;
};

const cause = (id: string): string => `${id} ${causeOf(id).words}`.trim();

/** Null for a fact that does not touch the protection. */
export const safetyWords = (fact: Fact): SafetyWords | null => {
  const say = (what: string, by: Who | null, look = false): SafetyWords => ({ what, by, look });
  switch (fact.is) {
    case 'causeProved':
      return say(
        `Proof test ${fact.result}: ${cause(fact.cause)}${fact.remark === '' ? '' : ` (${fact.remark})`}`,
        fact.by,
        fact.result === 'failed',
      );
    case 'inhibitAsked':
      return say(`Inhibit asked for, ${fact.minutes} min: ${cause(fact.cause)} (${fact.reason})`, fact.by);
    case 'causeInhibited':
      return say(
        `Inhibited for ${fact.minutes} min, asked for by ${fact.askedBy.person}: ${cause(fact.cause)} (${fact.reason})`,
        fact.by,
        true,
      );
    case 'inhibitEnded':
      return say(`Inhibit ended, ${fact.why}: ${cause(fact.cause)}`, fact.by);
    case 'hotWorkOpened':
      return say(
        `Hot work permit ${fact.permit} opened for ${fact.minutes} min, ${fact.where} (${fact.reason})`,
        fact.by,
        true,
      );
    case 'hotWorkClosed':
      return say(`Hot work permit ${fact.permit} closed`, fact.by);
    case 'deliveryBegun':
      return say(
        `Delivery ${fact.ticket} begun: ${fact.kg} kg of ${fact.product} into the ${fact.tank} tank`,
        fact.by,
      );
    case 'deliveryConfirmed':
      return say(`Delivery into the ${fact.tank} tank confirmed as ${fact.product}`, fact.by);
    case 'deliveryEnded':
      return say(`Delivery into the ${fact.tank} tank ended`, fact.by);
    case 'tankIdentified':
      return say(`Contents of the ${fact.tank} tank identified as ${fact.product} (${fact.reason})`, fact.by);
    case 'tankDoubted':
      return say(`Contents of the ${fact.tank} tank in doubt: ${fact.why}`, null, true);
    case 'calibrationLost':
      return say(`Vapour detector out of calibration: ${fact.why}`, null, true);
    default:
      return null;
  }
};
