/** What one shift leaves to the next by its record: proof tests, doubts about tanks and detector, a permit left open. */
import type { Fact } from '../../machines/line/facts.ts';
import type { Shift } from '../../machines/scenario/shift.schema.ts';

export type Proofs = NonNullable<Shift['proofs']>;
export type CarriedOn = Pick<Shift, 'proofs' | 'tanks' | 'hotWork'>;

const TANKS = ['emulsion', 'cutback'] as const;
type Tank = (typeof TANKS)[number];
const FOAMS = /foams$/;

/** The last proof test of each cause, in the order first seen. */
const latestOf = (proofs: Proofs): Proofs => {
  const latest = new Map<string, Proofs[number]>();
  for (const proof of proofs)
    if (proof.on >= (latest.get(proof.cause)?.on ?? '')) latest.set(proof.cause, proof);
  return [...latest.values()];
};

/** Tests done in the shift; a detector found to drift and a tank found to foam stand as failed until they are tested anew. */
const proofsDone = (facts: readonly Fact[], date: string): Proofs =>
  facts.flatMap((fact): Proofs => {
    if (fact.is === 'causeProved') {
      const { cause, on, result, by, remark } = fact;
      return [{ cause, on, result, by: by.person, remark }];
    }
    const failed = (cause: string, remark: string): Proofs => [
      { cause, on: date, result: 'failed', by: 'line', remark },
    ];
    if (fact.is === 'calibrationLost') return failed('FI-20', fact.why);
    if (fact.is === 'tankDoubted' && FOAMS.test(fact.why))
      return failed(fact.tank === 'emulsion' ? 'TE-08' : 'TC-08', fact.why);
    return [];
  });

/** Whether nobody knows what is in a tank when the shift is over: doubted and not identified, or a delivery not ended. */
const isDoubted = (tank: Tank, before: Shift, facts: readonly Fact[]): boolean => {
  let doubted = before.tanks?.[tank]?.confirmed === false;
  let delivering = false;
  for (const fact of facts) {
    if (!('tank' in fact) || fact.tank !== tank) continue;
    if (fact.is === 'tankDoubted' && !FOAMS.test(fact.why)) doubted = true;
    else if (fact.is === 'tankIdentified') doubted = fact.product !== tank;
    else if (fact.is === 'deliveryBegun') delivering = true;
    else if (fact.is === 'deliveryEnded') delivering = false;
  }
  return doubted || delivering;
};

const permitLeftOpen = (before: Shift, facts: readonly Fact[]): Shift['hotWork'] => {
  let open = before.hotWork;
  for (const fact of facts) {
    if (fact.is === 'hotWorkOpened') open = { where: fact.where, reason: fact.reason, by: fact.by.person };
    else if (fact.is === 'hotWorkClosed') open = undefined;
  }
  return open;
};

/**
 * What the next shift from `own` begins with, after `before` in which those facts were told. Parts with nothing to
 * carry are left out, so that a shift with nothing behind it stays as its file says.
 */
export const carriedOn = (own: Shift, before: Shift, facts: readonly Fact[]): CarriedOn => {
  const done = proofsDone(facts, before.date);
  const ownProofs = own.proofs ?? [];
  const proofs = latestOf([...ownProofs, ...(before.proofs ?? []), ...done]);
  const doubts = TANKS.filter((tank) => isDoubted(tank, before, facts));
  const hotWork = permitLeftOpen(before, facts);
  return {
    ...(proofs.length === ownProofs.length && done.length === 0 ? {} : { proofs }),
    ...(doubts.length === 0
      ? {}
      : {
          tanks: {
            ...own.tanks,
            ...Object.fromEntries(doubts.map((tank) => [tank, { ...own.tanks?.[tank], confirmed: false }])),
          },
        }),
    ...(hotWork === undefined ? {} : { hotWork }),
  };
};
