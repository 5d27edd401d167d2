/** Answers every command of the lab book with facts or reasons; a result that fails puts its lot on hold by itself. */
import type { Asked, Told } from '../record/book.types.ts';
import {
  acceptLot,
  askConcession,
  grantConcession,
  holdLot,
  investigate,
  liftHold,
  refuseConcession,
  rejectLot,
  reopenDecision,
  reworkLot,
  type StockLike,
  sendToWaste,
} from './answer-decisions.ts';
import {
  correctSample,
  discardRetained,
  handOverSample,
  logSample,
  substituteSample,
} from './answer-samples.ts';
import {
  attachPhoto,
  bringWorksheetBack,
  correctWorksheet,
  enterWorksheet,
  orderRetest,
  setPhotoAside,
  setWorksheetAside,
} from './answer-worksheets.ts';
import type { LabCommand } from './commands.ts';
import type { LabFact } from './facts.ts';
import { hearLabFact } from './hear-lab.ts';
import { isDecided, lotIn, NEXT_STEPS } from './lots.ts';
import type { LabState } from './state.ts';

/** What other books offer the lab: the stock says what of a lot has left the yard. */
export type LabOthers = { readonly stock?: unknown };

const direct = (
  state: LabState,
  { command, by, at }: Asked<LabCommand>,
  others: LabOthers,
): Told<LabFact> => {
  switch (command.do) {
    case 'logSample':
      return logSample(state, command);
    case 'substituteSample':
      return substituteSample(state, command, by, at);
    case 'correctSample':
      return correctSample(state, command);
    case 'handOverSample':
      return handOverSample(state, command);
    case 'discardRetained':
      return discardRetained(state, command, at);
    case 'enterWorksheet':
      return enterWorksheet(state, command, by, at);
    case 'correctWorksheet':
      return correctWorksheet(state, command, at);
    case 'setWorksheetAside':
      return setWorksheetAside(state, command, by);
    case 'bringWorksheetBack':
      return bringWorksheetBack(state, command);
    case 'attachPhoto':
      return attachPhoto(state, command);
    case 'setPhotoAside':
      return setPhotoAside(state, command);
    case 'orderRetest':
      return orderRetest(state, command);
    case 'holdLot':
      return holdLot(state, command);
    case 'liftHold':
      return liftHold(state, command);
    case 'investigate':
      return investigate(state, command);
    case 'acceptLot':
      return acceptLot(state, command);
    case 'rejectLot':
      return rejectLot(state, command);
    case 'sendToWaste':
      return sendToWaste(state, command);
    case 'reworkLot':
      return reworkLot(state, command);
    case 'askConcession':
      return askConcession(state, command);
    case 'grantConcession':
      return grantConcession(state, command, by);
    case 'refuseConcession':
      return refuseConcession(state, command);
    case 'reopenDecision':
      return reopenDecision(state, command, others.stock as StockLike | undefined);
  }
};

const lotOfFacts = (facts: readonly LabFact[]): string | null => {
  for (const fact of facts) if ('lot' in fact && fact.lot !== null) return fact.lot;
  return null;
};

/** Facts that can make a lot fail that did not before. */
const MAY_FAIL: readonly LabFact['is'][] = [
  'worksheetEntered',
  'worksheetCorrected',
  'worksheetSetAside',
  'worksheetBroughtBack',
];

export const answerLab = (state: LabState, asked: Asked<LabCommand>, others: LabOthers): Told<LabFact> => {
  const told = direct(state, asked, others);
  if (!told.ok || !told.facts.some((fact) => MAY_FAIL.includes(fact.is))) return told;
  const lotId = lotOfFacts(told.facts);
  if (lotId === null) return told;
  const after = lotIn(
    told.facts.reduce((now, fact) => hearLabFact(now, fact, asked.by, asked.at), state),
    lotId,
  );
  if (after === undefined || after.held || isDecided(after) || after.failing.length === 0) return told;
  const hold: LabFact = {
    is: 'lotHeld',
    lot: lotId,
    cause: 'failing result',
    reason: after.failing.join('; '),
    nextSteps: NEXT_STEPS,
  };
  return { ok: true, facts: [...told.facts, hold] };
};
