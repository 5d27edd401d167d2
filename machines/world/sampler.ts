/**
 * Gives the commands of the sealed sampling plans: it alone knows when samples are due, by a secret of the shift.
 *
 * It stands beside line and plant like the stand-in, so that the line needs no secret and a record can be decided again
 * without one. All it knows is the secret: what is still to do it sees from the line.
 */
import { type DrawnSample, drawPlan, nonceOf, planText, samplesOf } from '../lab/plan.ts';
import { sha256Hex } from '../lab/seal-check.ts';
import type { Command, CommandEnvelope } from '../line/commands.ts';
import type { Line, Lot } from '../line/line.types.ts';
import { accountGrams, batchValue, mixById, openLot, specificationOf } from '../line/lookup.ts';
import { SAMPLING_PLAN } from '../people/permissions.ts';
import type { Scenario } from '../scenario/shift.schema.ts';

export type Sampler = {
  /** 32 bytes, hex. Whoever knows it knows every tonnage of the shift: it is never shown nor recorded. */
  readonly secret: string;
};

/** The secret of a shift nobody plays against: the same file and seed draw the same plans. */
export const secretOfSeed = ({ shift }: Scenario): string =>
  sha256Hex(`patchyard sampling secret\n${shift.id}\n${shift.date}\n${shift.seed}`);

const isOfPlan = ({ by }: CommandEnvelope): boolean =>
  by.role === SAMPLING_PLAN.role && by.console === SAMPLING_PLAN.console;

const drawn = (sampler: Sampler, line: Line, lot: Lot) => {
  const specification = specificationOf(line, mixById(line, lot.mixId));
  const samples = samplesOf(specification?.frequencies ?? {});
  return {
    specification,
    nonce: nonceOf(sha256Hex, sampler.secret, lot.id),
    samples: drawPlan(sha256Hex, sampler.secret, lot.id, lot.ofKg, samples),
  };
};

const envelope = (id: string, command: Command): CommandEnvelope => ({ id, by: SAMPLING_PLAN, command });

const toCommit = (sampler: Sampler, line: Line, lot: Lot): CommandEnvelope[] => {
  const { specification, nonce, samples } = drawn(sampler, line, lot);
  if (specification === null) return [];
  return [
    envelope(`plan-commit-${lot.id}`, {
      do: 'commitPlan',
      lot: lot.id,
      specification: specification.id,
      commitment: sha256Hex(planText(lot.id, nonce, samples)),
      samples: samples.map(({ n, test, part, ofParts }) => ({ n, test, part, ofParts })),
    }),
  ];
};

/**
 * Only a plan that this secret drew is called and opened. Another one's is lost with its secret: what was not called yet
 * is then not reached, and the lab takes it from the bay.
 */
const isOurs = (lot: Lot, nonce: string, samples: readonly DrawnSample[]): boolean =>
  lot.plan?.commitment === sha256Hex(planText(lot.id, nonce, samples));

/** Samples the batch being looked at will reach when it is discharged. */
const toCall = (sampler: Sampler, line: Line, lot: Lot): CommandEnvelope[] => {
  const reachedKg = (lot.grams + accountGrams(line, 'mixer')) / 1000;
  const { nonce, samples } = drawn(sampler, line, lot);
  if (!isOurs(lot, nonce, samples)) return [];
  return samples
    .filter(
      ({ n, atKg }) => atKg <= reachedKg && lot.samples.some((one) => one.n === n && one.state === 'ahead'),
    )
    .sort((a, b) => a.atKg - b.atKg)
    .map(({ n, atKg }) => envelope(`plan-call-${lot.id}-${n}`, { do: 'callSample', lot: lot.id, n, atKg }));
};

const toOpen = (sampler: Sampler, line: Line, lot: Lot): CommandEnvelope[] => {
  const { nonce, samples } = drawn(sampler, line, lot);
  if (!isOurs(lot, nonce, samples)) return [];
  return [
    envelope(`plan-open-${lot.id}`, {
      do: 'openPlan',
      lot: lot.id,
      nonce,
      atKg: samples.map(({ atKg }) => atKg),
    }),
  ];
};

/** The step of looking was entered with the line's last tick. */
const looksNow = (line: Line): boolean =>
  line.batch !== null && line.stepTick === line.tick && batchValue(line).step === 'looking';

/**
 * What the plans ask of the line in this moment. `recorded` are commands of theirs that stand in the record at this
 * moment: they are given as they stand, which keeps a shift whole even when its secret was lost.
 */
export const samplerWorks = (
  sampler: Sampler,
  line: Line,
  lotsBefore: readonly Lot[] | null,
  recorded: readonly CommandEnvelope[],
): readonly CommandEnvelope[] => {
  const looks = looksNow(line);
  if (!looks && line.lots === lotsBefore && recorded.length === 0) return recorded;
  const commands: CommandEnvelope[] = [...recorded];
  const add = (more: readonly CommandEnvelope[]) => {
    for (const one of more) if (!commands.some((other) => other.id === one.id)) commands.push(one);
  };
  const open = openLot(line);
  if (open !== null && open.plan === null && open.samples.length === 0) add(toCommit(sampler, line, open));
  if (looks && open !== null && open.plan !== null) add(toCall(sampler, line, open));
  for (const lot of line.lots)
    if (lot.plan !== null && !lot.plan.opened && lot.state !== 'open') add(toOpen(sampler, line, lot));
  return commands;
};

/** Commands handed in, without and with those of the plan. */
export const partedByPlan = (
  handed: readonly CommandEnvelope[],
): { readonly people: readonly CommandEnvelope[]; readonly plan: readonly CommandEnvelope[] } =>
  handed.length === 0 || !handed.some(isOfPlan)
    ? { people: handed, plan: [] }
    : { people: handed.filter((one) => !isOfPlan(one)), plan: handed.filter(isOfPlan) };
