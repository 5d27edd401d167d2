/** What others use of the judge. */
export { contradictionsOf } from './contradictions.ts';
export { judge } from './judge.ts';
export type {
  Contradiction,
  Failing,
  JudgeContext,
  Judgement,
  LotResult,
  Missing,
  ResultJudged,
  SampleState,
} from './judge.types.ts';
export { limitsOn, limitWords, propertyWords, valueWords } from './limits.ts';
export { absorptionOf, gradingsOf } from './stone.ts';
