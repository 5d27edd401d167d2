/** A specification for the tests of the judge, and lots to put to it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import type { JudgeContext, LotResult } from '../../../machines/lab/judge/judge.types.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { type Mix, mixSchema } from '../../../machines/scenario/mix.schema.ts';
import { type Specification, specificationSchema } from '../../../machines/scenario/specification.schema.ts';

const SCENARIOS = join(import.meta.dirname, '../../../scenarios');

export const shippedSpecification = (id: string): Specification =>
  specificationSchema.parse(parse(readFileSync(join(SCENARIOS, 'specifications', `${id}.yaml`), 'utf8')));

export const shippedMix = (id: string): Mix =>
  mixSchema.parse(parse(readFileSync(join(SCENARIOS, 'mixes', `${id}.yaml`), 'utf8')));

/** A small specification: two binder samples and one of water resistance. */
export const smallSpecification = (change: Partial<Specification> = {}): Specification => {
  const frequencies = change.frequencies ?? { 'binder content': 2, 'water resistance': 1 };
  return specificationSchema.parse({
    kind: 'specification',
    id: 'small',
    version: 1,
    name: 'Small',
    family: 'emulsion',
    source: 'made for a test',
    frequencies,
    limits: [
      {
        property: 'residualBinderMixPct',
        from: 4.5,
        to: 5.5,
        unit: '%',
        decimals: 1,
        source: 'test',
        status: 'common practice',
      },
      { property: 'coatedPct', from: 90, unit: '%', source: 'test', status: 'common practice' },
    ],
    shortLot: {
      belowPct: 50,
      frequencies: Object.fromEntries(Object.keys(frequencies).map((test) => [test, 1])),
      why: 'One sublot.',
    },
    missedSample: { rule: 'replace', why: 'From the bay.' },
    verdict: { rule: 'each', why: 'Each.' },
    retest: { counts: 'the retest', most: 1, why: 'It was the test.' },
    shelfLife: { days: 60, source: 'test', status: 'from memory' },
    retained: { days: 28, source: 'test', status: 'common practice' },
    ...change,
  });
};

export const result = (sample: number, property: string, value: number, retest = 0): LotResult => {
  const known = propertyOf(property);
  if (known === null) throw new Error(`no property ${property}`);
  return { sample, test: known.test, property, value, unit: known.unit, retest };
};

export const wholeLot: JudgeContext = {
  absorptionPct: 0.8,
  lotGrams: 10_000_000,
  fullLotGrams: 10_000_000,
  closed: true,
  samples: [
    { n: 1, test: 'binder content', state: 'taken' },
    { n: 2, test: 'binder content', state: 'taken' },
    { n: 3, test: 'water resistance', state: 'taken' },
  ],
};

/** Results with which the small specification is passed. */
export const passing: readonly LotResult[] = [
  result(1, 'residualBinderMixPct', 4.9),
  result(2, 'residualBinderMixPct', 5.1),
  result(3, 'coatedPct', 95),
];
