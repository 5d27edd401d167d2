/** The lab's facts in plain words, for the record's list. */
import type { LabFact } from './facts.ts';

const of = (lot: string | null): string => (lot === null ? '' : ` of lot ${lot}`);
const changesOf = (
  changes: readonly { readonly field: string; readonly was: unknown; readonly now: unknown }[],
) => changes.map(({ field, was, now }) => `${field} ${was ?? 'empty'} → ${now ?? 'empty'}`).join(', ');

export const labWords = (fact: LabFact): string => {
  switch (fact.is) {
    case 'sampleLogged':
      return `Sample ${fact.sample} of lot ${fact.lot} logged: ${fact.massKg} kg, ${fact.retainedKg} kg kept back until ${fact.discardOn}`;
    case 'sampleSubstituted':
      return `Sample ${fact.sample} of lot ${fact.lot} replaced from the ${fact.source}: ${fact.reason}`;
    case 'sampleCorrected':
      return `Sample ${fact.sample} of lot ${fact.lot} corrected: ${changesOf(fact.changes)}: ${fact.reason}`;
    case 'custodyHandedOver':
      return `Sample ${fact.sample} of lot ${fact.lot} handed over by ${fact.from} to ${fact.to}`;
    case 'retainedDiscarded':
      return `Retained portion of sample ${fact.sample} of lot ${fact.lot} thrown away${fact.reason === null ? '' : `: ${fact.reason}`}`;
    case 'worksheetEntered':
      return `Worksheet ${fact.worksheet} entered: ${fact.test}${
        fact.lot === null
          ? ` on ${fact.subject?.kind ?? 'nothing'} ${fact.subject?.id ?? ''}`
          : `, sample ${fact.sample}${of(fact.lot)}`
      }${fact.retest ? ', retest' : ''}${fact.simulated ? ', read from the simulated bench' : ''}`;
    case 'worksheetCorrected':
      return `Worksheet ${fact.worksheet} corrected: ${changesOf(fact.changes)}: ${fact.reason}`;
    case 'worksheetSetAside':
      return `Worksheet ${fact.worksheet}${of(fact.lot)} set aside: ${fact.reason}`;
    case 'worksheetBroughtBack':
      return `Worksheet ${fact.worksheet}${of(fact.lot)} counts again: ${fact.reason}`;
    case 'photoAttached':
      return `Photograph attached to worksheet ${fact.worksheet}${fact.caption === '' ? '' : `: ${fact.caption}`}`;
    case 'photoSetAside':
      return `Photograph of worksheet ${fact.worksheet} set aside: ${fact.reason}`;
    case 'retestOrdered':
      return `Retest of sample ${fact.sample} (${fact.test}) of lot ${fact.lot} ordered: ${fact.reason}`;
    case 'lotHeld':
      return `Lot ${fact.lot} put on hold: ${fact.reason}`;
    case 'holdLifted':
      return `Hold of lot ${fact.lot} lifted: ${fact.reason}`;
    case 'lotInvestigated':
      return `Lot ${fact.lot} looked into: ${fact.note}`;
    case 'lotAccepted':
      return `Lot ${fact.lot} accepted by ${fact.specification} version ${fact.specificationVersion}${fact.remark === '' ? '' : `: ${fact.remark}`}`;
    case 'lotRejected':
      return `Lot ${fact.lot} rejected: ${fact.reason}`;
    case 'lotSentToWaste':
      return `Lot ${fact.lot} sent to waste: ${fact.reason}`;
    case 'lotReworked':
      return `Lot ${fact.lot} is being reworked: ${fact.reason}`;
    case 'concessionAsked':
      return `Concession asked for lot ${fact.lot}: ${fact.reason}`;
    case 'concessionGranted':
      return `Lot ${fact.lot} released by concession, asked for by ${fact.askedBy}: ${fact.reason}`;
    case 'concessionRefused':
      return `Concession for lot ${fact.lot} refused: ${fact.reason}`;
    case 'decisionReopened':
      return `Decision on lot ${fact.lot} re-opened, it was ${fact.was}${fact.leftYardGrams > 0 ? `, ${(fact.leftYardGrams / 1e6).toFixed(2)} t of it had left the yard` : ''}: ${fact.reason}`;
  }
};
