/** What others use of the statistics. */
export { type Breakdown, breakdown } from './breakdown.ts';
export { type Capability, capability } from './capability.ts';
export { cusum } from './cusum.ts';
export { deviation, mean } from './describe.ts';
export { type DriftNote, whatChanged } from './drift.ts';
export { ewma } from './ewma.ts';
export { individuals } from './individuals.ts';
export { lotMeans } from './lot-means.ts';
export { acceptance, type OcPoint, ocCurve, type Spread } from './oc-curve.ts';
export { type PlanInForce, planInForce } from './plan-in-force.ts';
export { type Pwl, pwlOf, pwlOfQuality } from './pwl.ts';
export { RUN_RULES, type RunRule, runsOf } from './run-rules.ts';
export { LABEL_WORDS, LABELS, type LabelName, type Point, type Series } from './series.types.ts';
export { CHARTS, type Charted, chart, type Signal, type SignalOptions, signals } from './signals.ts';
export { pooledWithin } from './spread.ts';
