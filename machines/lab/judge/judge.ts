/** The verdict on a lot: what fails, what is missing, what contradicts, and by which rules it was found. */
import type { Limit, Specification } from '../../scenario/specification.schema.ts';
import { contradictionsOf, knownContradictions } from './contradictions.ts';
import type { JudgeContext, Judgement, LotResult, ResultJudged } from './judge.types.ts';
import { isWithin, limitsOn, limitWords, propertyWords, valueWords } from './limits.ts';
import { missingOf, needed } from './missing.ts';
import { sortRetests } from './retests.ts';
import { hold } from './verdict.ts';

/** One result against the limits that hold for it: null where the profile sets none. */
const judgedAlone = (
  spec: Specification,
  result: LotResult,
  absorptionPct: number | null,
  aside: string | undefined,
): ResultJudged => {
  const limits = limitsOn(spec, result.property, absorptionPct);
  const within = limits.length === 0 ? null : limits.every((limit) => isWithin(result.value, limit));
  const against =
    within === null
      ? 'no limit in this specification'
      : `${within ? 'within' : 'outside'} ${limits.map(limitSaid).join(' and ')}`;
  return {
    ...result,
    counts: aside === undefined,
    within,
    limits,
    words: `${propertyWords(result.property)} ${valueWords(result.property, result.value)}, ${against}${aside === undefined ? '' : `; ${aside}`}`,
  };
};

const isUnknownAbsorption = (spec: Specification, results: readonly LotResult[]): boolean =>
  spec.limits.some(
    (limit) => limit.when !== undefined && results.some((one) => one.property === limit.property),
  );

/** Words of a limit, worked out once. */
const said = new WeakMap<Limit, string>();
const limitSaid = (limit: Limit): string => {
  const known = said.get(limit) ?? limitWords(limit);
  said.set(limit, known);
  return known;
};

const list = (words: readonly string[]): string => words.join('; ');

const contradicting = (spec: Specification, { absorptionPct, mix = null, gradings }: JudgeContext) => {
  if (mix !== null && gradings === undefined) return knownContradictions(spec, mix, absorptionPct);
  return contradictionsOf(spec, mix, { absorptionPct, ...(gradings === undefined ? {} : { gradings }) });
};

/** Judges a lot by its specification. Total: any results and any context give an answer. */
export const judge = (
  spec: Specification,
  results: readonly LotResult[],
  context: JudgeContext,
): Judgement => {
  const { absorptionPct } = context;
  const sorted = sortRetests(spec.retest, results);
  const held = hold(spec, sorted.counted, absorptionPct);
  const missing = missingOf(spec, context, sorted.counted);
  const { short } = needed(spec, context);
  const lost = context.samples.filter((one) => one.state === 'missed');
  const notes = [
    ...(short
      ? [
          `Closed short, below ${spec.shortLot.belowPct} % of its mass: fewer samples are asked for. ${spec.shortLot.why}`,
        ]
      : []),
    ...(lost.length > 0
      ? [`Missed: sample ${lost.map((one) => one.n).join(', ')}. ${spec.missedSample.why}`]
      : []),
    ...sorted.notes,
    ...held.notes,
    ...(absorptionPct === null && isUnknownAbsorption(spec, results)
      ? [
          'Water absorption of the stone is not known: limits that depend on it were left out. Measure it and judge again.',
        ]
      : []),
  ];
  const verdict =
    held.failing.length > 0 ? 'fail' : missing.length > 0 || !context.closed ? 'incomplete' : 'pass';
  const words =
    verdict === 'fail'
      ? `Fails: ${list(held.failing.map((one) => one.words))}.`
      : verdict === 'pass'
        ? `Passes: every result that counts is within the limits of ${spec.name}, version ${spec.version}.`
        : missing.length > 0
          ? `Not yet: ${list(missing.map((one) => one.words))}.`
          : 'Not yet: the lot is still open.';
  return {
    verdict,
    failing: held.failing,
    missing,
    contradictions: contradicting(spec, context),
    results: results.map((one) => judgedAlone(spec, one, absorptionPct, sorted.aside.get(one))),
    notes,
    words,
  };
};
