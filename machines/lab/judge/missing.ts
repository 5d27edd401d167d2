/** What a lot still lacks before it can be judged: how many samples its profile asks for, and which have no result. */
import { LAB_TESTS, type LabTest, propertyOf } from '../../scenario/lab-tests.ts';
import type { Specification } from '../../scenario/specification.schema.ts';
import type { JudgeContext, Missing } from './judge.types.ts';
import { limitsOn } from './limits.ts';
import type { Counted } from './retests.ts';

/** Samples of each test this lot needs: fewer where it was closed short. */
export const needed = (
  spec: Specification,
  context: Pick<JudgeContext, 'closed' | 'lotGrams' | 'fullLotGrams'>,
): { readonly frequencies: Specification['frequencies']; readonly short: boolean } => {
  const short = context.closed && context.lotGrams < (context.fullLotGrams * spec.shortLot.belowPct) / 100;
  return { frequencies: short ? spec.shortLot.frequencies : spec.frequencies, short };
};

/** Properties a sample of this test must give: those the profile limits. */
export const limitedProperties = (
  spec: Specification,
  test: LabTest,
  absorptionPct: number | null,
): readonly string[] => {
  const names = spec.limits
    .map((limit) => limit.property)
    .filter((name) => propertyOf(name)?.test === test && limitsOn(spec, name, absorptionPct).length > 0);
  return [...new Set(names)];
};

const stateWords: { readonly [S in JudgeContext['samples'][number]['state']]: string } = {
  ahead: 'is still to come',
  due: 'is due at the next discharge',
  taken: 'was taken and has no result yet',
  missed: 'was missed',
  'not reached': 'was not reached before the lot was closed',
  logged: 'was taken later, in place of a lost one, and has no result yet',
};

const lostWords = (spec: Specification, n: number, state: 'missed' | 'not reached'): string => {
  const lost = `sample ${n} ${stateWords[state]}`;
  const { rule } = spec.missedSample;
  if (rule === 'replace') return `${lost}: take one from the lot’s bay`;
  return rule === 'hold' ? `${lost}: no verdict without it, ask for a concession or reject` : lost;
};

/** Everything missing, in the order of the tests. */
export const missingOf = (
  spec: Specification,
  context: JudgeContext,
  counted: readonly Counted[],
): readonly Missing[] => {
  const { frequencies, short } = needed(spec, context);
  const complete = (test: LabTest, sample: number): boolean => {
    const wanted = limitedProperties(spec, test, context.absorptionPct);
    const own = counted.filter((one) => one.sample === sample && one.of[0]?.test === test);
    return wanted.length === 0
      ? own.length > 0
      : wanted.every((property) => own.some((one) => one.property === property));
  };
  return LAB_TESTS.flatMap((test): Missing[] => {
    const asked = frequencies[test] ?? 0;
    const tested = [...new Set(counted.filter((one) => one.of[0]?.test === test).map((one) => one.sample))];
    const have = tested.filter((sample) => complete(test, sample)).length;
    const samples = context.samples.filter((one) => one.test === test);
    const lost = samples.filter((one) => one.state === 'missed' || one.state === 'not reached').length;
    const { rule, leastEach } = spec.missedSample;
    const wanted =
      rule === 'judge without'
        ? Math.min(asked, Math.max(leastEach, samples.length === 0 ? asked : asked - lost))
        : asked;
    if (have >= wanted) return [];
    const open = samples
      .filter((one) => !complete(test, one.n))
      .map((one) => {
        if (tested.includes(one.n)) {
          const lacking = limitedProperties(spec, test, context.absorptionPct).filter(
            (name) => !counted.some((found) => found.sample === one.n && found.property === name),
          );
          return `sample ${one.n} lacks ${lacking.map((name) => propertyOf(name)?.words ?? name).join(', ')}`;
        }
        return one.state === 'missed' || one.state === 'not reached'
          ? lostWords(spec, one.n, one.state)
          : `sample ${one.n} ${stateWords[one.state]}`;
      });
    const of = short ? ', as the lot was closed short' : '';
    return [
      {
        test,
        wanted,
        have,
        words: `${test}: ${have} of ${wanted} ${wanted === 1 ? 'sample' : 'samples'} tested${of}${open.length === 0 ? '' : `; ${open.join('; ')}`}`,
      },
    ];
  });
};
