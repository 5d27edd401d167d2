/** Answers about what becomes of a lot: the program proposes, a person decides, and a decision keeps its reasons. */
import type { Who } from '../line/facts.ts';
import type { Told } from '../record/book.types.ts';
import { lotOr, no, yes } from './answer-samples.ts';
import type { LabCommand } from './commands.ts';
import type { LabFact } from './facts.ts';
import { isDecided, NEXT_STEPS } from './lots.ts';
import type { LabLot, LabState } from './state.ts';

type Of<N extends LabCommand['do']> = Extract<LabCommand, { do: N }>;
type Answer = Told<LabFact>;

const undecided = (lot: LabLot): string[] =>
  isDecided(lot)
    ? [
        `Lot ${lot.lot} is ${lot.state} by ${lot.decidedBy ?? 'somebody'}: re-open the decision first, with a reason.`,
      ]
    : [];

const onLot = (state: LabState, id: string, then: (lot: LabLot) => Answer): Answer => {
  const lot = lotOr(state, id);
  return typeof lot === 'string' ? no(lot) : then(lot);
};

const unlessDecided = (state: LabState, id: string, then: (lot: LabLot) => Answer): Answer =>
  onLot(state, id, (lot) => {
    const because = undecided(lot);
    return because.length > 0 ? no(...because) : then(lot);
  });

export const holdLot = (state: LabState, command: Of<'holdLot'>): Answer =>
  unlessDecided(state, command.lot, (lot) =>
    lot.held
      ? no(`Lot ${lot.lot} is on hold already.`)
      : yes({
          is: 'lotHeld',
          lot: lot.lot,
          cause: 'person',
          reason: command.reason,
          nextSteps: NEXT_STEPS,
        }),
  );

export const liftHold = (state: LabState, command: Of<'liftHold'>): Answer =>
  unlessDecided(state, command.lot, (lot) => {
    if (!lot.held) return no(`Lot ${lot.lot} is not on hold.`);
    if (lot.failing.length > 0)
      return no(`It still does not meet its specification: ${lot.failing.join('; ')}`);
    return yes({ is: 'holdLifted', lot: lot.lot, reason: command.reason });
  });

export const investigate = (state: LabState, command: Of<'investigate'>): Answer =>
  onLot(state, command.lot, (lot) => {
    const strange = command.batches.filter((batch) => !lot.batches.includes(batch));
    if (strange.length > 0)
      return no(
        `Batch ${strange.join(', ')} does not lie in lot ${lot.lot}: it has ${lot.batches.join(', ')}.`,
      );
    return yes({ is: 'lotInvestigated', lot: lot.lot, note: command.note, batches: command.batches });
  });

export const acceptLot = (state: LabState, command: Of<'acceptLot'>): Answer =>
  unlessDecided(state, command.lot, (lot) => {
    if (lot.specification === null || lot.specificationVersion === null)
      return no(
        `The mix of lot ${lot.lot} names no specification: a lot is accepted by a specification or not at all.`,
      );
    const because = [
      ...lot.failing.map((words) => `It fails: ${words}`),
      ...lot.missing.map((words) => `It is missing: ${words}`),
    ];
    if (because.length > 0) return no(...because);
    if (lot.plan?.findings != null && lot.plan.findings.length > 0)
      return no(
        `Its sampling plan does not hold: ${lot.plan.findings.join('; ')}. Only a concession is left.`,
      );
    if (lot.heldBy === 'person') return no(`Lot ${lot.lot} is on hold: lift the hold first.`);
    return yes({
      is: 'lotAccepted',
      lot: lot.lot,
      remark: command.remark,
      specification: lot.specification,
      specificationVersion: lot.specificationVersion,
      results: lot.results,
    });
  });

export const rejectLot = (state: LabState, command: Of<'rejectLot'>): Answer =>
  unlessDecided(state, command.lot, (lot) =>
    lot.closedAt === null
      ? no(`Lot ${lot.lot} is still being filled: put it on hold now, and decide when it is closed.`)
      : yes({ is: 'lotRejected', lot: lot.lot, reason: command.reason }),
  );

const afterRejection = (state: LabState, id: string, then: (lot: LabLot) => Answer): Answer =>
  onLot(state, id, (lot) => {
    if (lot.state !== 'rejected') return no(`Lot ${lot.lot} is ${lot.state}: reject it first.`);
    if (lot.done !== null) return no(`Lot ${lot.lot} is ${lot.done} already.`);
    return then(lot);
  });

export const sendToWaste = (state: LabState, command: Of<'sendToWaste'>): Answer =>
  afterRejection(state, command.lot, (lot) =>
    yes({ is: 'lotSentToWaste', lot: lot.lot, reason: command.reason }),
  );

export const reworkLot = (state: LabState, command: Of<'reworkLot'>): Answer =>
  afterRejection(state, command.lot, (lot) =>
    yes({ is: 'lotReworked', lot: lot.lot, reason: command.reason }),
  );

export const askConcession = (state: LabState, command: Of<'askConcession'>): Answer =>
  unlessDecided(state, command.lot, (lot) => {
    if (lot.closedAt === null) return no(`Lot ${lot.lot} is still being filled: wait until it is closed.`);
    if (lot.concession !== null) return no(`${lot.concession.askedBy} has asked already.`);
    if (lot.verdict === 'pass') return no(`Lot ${lot.lot} meets its specification: accept it.`);
    return yes({ is: 'concessionAsked', lot: lot.lot, reason: command.reason });
  });

export const grantConcession = (state: LabState, command: Of<'grantConcession'>, by: Who): Answer =>
  unlessDecided(state, command.lot, (lot) => {
    if (lot.concession === null)
      return no(
        `Nobody has asked for a concession for lot ${lot.lot}: the quality officer asks first, with a reason.`,
      );
    if (lot.concession.askedBy === by.person)
      return no('Who asks for a concession cannot grant it: a second person does.');
    if (lot.worksheets.some((sheet) => sheet.testedBy === by.person || sheet.enteredBy === by.person))
      return no('You tested this lot yourself: a second person grants the concession.');
    return yes({
      is: 'concessionGranted',
      lot: lot.lot,
      reason: command.reason,
      askedBy: lot.concession.askedBy,
      failing: [...lot.failing, ...lot.missing],
    });
  });

export const refuseConcession = (state: LabState, command: Of<'refuseConcession'>): Answer =>
  unlessDecided(state, command.lot, (lot) =>
    lot.concession === null
      ? no(`Nobody has asked for a concession for lot ${lot.lot}.`)
      : yes({ is: 'concessionRefused', lot: lot.lot, reason: command.reason }),
  );

/** What the lab asks of the stock book: how much of a lot went out on vehicles and came back. */
export type StockLike = {
  readonly lots?: {
    readonly [lot: string]: { readonly loadedGrams?: number; readonly returnedGrams?: number } | undefined;
  };
};

const leftYardGrams = (stock: StockLike | undefined, lot: string): number => {
  const { loadedGrams = 0, returnedGrams = 0 } = stock?.lots?.[lot] ?? {};
  return Math.max(0, loadedGrams - returnedGrams);
};

export const reopenDecision = (
  state: LabState,
  command: Of<'reopenDecision'>,
  stock: StockLike | undefined,
): Answer =>
  onLot(state, command.lot, (lot) => {
    if (!isDecided(lot)) return no(`Nothing has been decided about lot ${lot.lot} yet.`);
    if (lot.done === 'sent to waste')
      return no(`Lot ${lot.lot} has been sent to waste: there is nothing left to decide about.`);
    return yes({
      is: 'decisionReopened',
      lot: lot.lot,
      reason: command.reason,
      was: lot.state,
      leftYardGrams: leftYardGrams(stock, lot.lot),
    });
  });
