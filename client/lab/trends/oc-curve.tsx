/** What the plan in force can tell apart: the chance of a lot being accepted, against what it truly holds. */
import { useId, useMemo, useState } from 'react';
import { SD } from '../../../machines/lab/bench/precision.ts';
import {
  acceptance,
  ocCurve,
  type PlanInForce,
  planInForce,
  pooledWithin,
  type Series,
} from '../../../machines/lab/stats/index.ts';
import type { LabView } from '../../../machines/lab/view.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { Slider } from '../../lessons/Slider.tsx';
import { atStep, roundScale } from '../plot/spread.ts';
import { propertyWords } from '../words.ts';
import { specOfMix } from './limits-for.ts';
import { sampleSeries } from './sample-series.ts';

const WIDTH = 680;
const HEIGHT = 260;
const LEFT = 54;
const RIGHT = 18;
const TOP = 14;
const BOTTOM = 44;
const STEPS = 90;
/** Where nothing has been measured yet: spread between samples and of the test, as shares of the window (from memory). */
const GUESS_BETWEEN = 0.12;
const GUESS_TEST = 0.1;
/** The question people ask first: 7 % of a 60 % emulsion leaves 4.2 %. */
const ASKED_FIRST = 4.2;

const RULE_WORDS: { readonly [K in PlanInForce['rule']]: string } = {
  each: 'each result within',
  mean: 'their mean within',
  'share within': 'the estimated share within',
};

const chanceWords = (chance: number): string =>
  chance > 0.9995
    ? 'is almost certain'
    : chance < 0.0005
      ? 'has almost no chance'
      : `has a chance of ${(chance * 100).toFixed(1)} %`;

export function OcCurve({
  view,
  mix,
  property,
  series,
}: {
  readonly view: LabView;
  readonly mix: string;
  readonly property: string;
  readonly series: Series;
}) {
  const spec = specOfMix(view, mix);
  const plan = useMemo(() => (spec === null ? null : planInForce(spec, property, null)), [spec, property]);
  if (plan === null || property === 'workable')
    return (
      <section className="card stack" aria-labelledby="oc-head">
        <h2 id="oc-head">What the plan can tell apart</h2>
        <p className="soft">
          No specification in force takes samples for {propertyWords(property).toLowerCase()} and limits it:
          there is no curve to draw.
        </p>
      </section>
    );
  return <Curve key={`${mix}${property}`} view={view} plan={plan} mix={mix} series={series} />;
}

function Curve({
  view,
  plan,
  mix,
  series,
}: {
  readonly view: LabView;
  readonly plan: PlanInForce;
  readonly mix: string;
  readonly series: Series;
}) {
  const id = useId();
  const { property, from, to, n, rule, retest } = plan;
  const window = from !== null && to !== null ? to - from : Math.max(Math.abs(from ?? to ?? 1) * 0.2, 0.5);
  const pooled = useMemo(() => pooledWithin(sampleSeries(view, mix, property)), [view, mix, property]);
  const measured = pooled !== null && pooled.sigma > 0;
  // What results of one lot differ by is the samples' spread and the test's together.
  const ofTest = property.startsWith('residualBinder') ? SD.extractionPct : window * GUESS_TEST;
  const ofSamples = measured
    ? Math.sqrt(Math.max(0, pooled.sigma ** 2 - ofTest ** 2))
    : window * GUESS_BETWEEN;
  const [between, setBetween] = useState(Number(ofSamples.toPrecision(2)));
  const [test, setTest] = useState(Number(ofTest.toPrecision(2)));
  const low = (from ?? (to ?? 0) - window) - window * 0.75;
  const high = (to ?? (from ?? 0) + window) + window * 0.75;
  const { ticks } = roundScale([low, high]);
  const step = (ticks[1] ?? 1) - (ticks[0] ?? 0);
  const [truth, setTruth] = useState(
    property.startsWith('residualBinder') ? ASKED_FIRST : Number((from ?? to ?? 0).toPrecision(4)),
  );
  const least = Math.min(low, truth);
  const most = Math.max(high, truth);
  const curve = useMemo(
    () => ocCurve(plan, { between, test }, { from: least, to: most, steps: STEPS }),
    [plan, between, test, least, most],
  );
  const chance = useMemo(() => acceptance(plan, { between, test })(truth), [plan, between, test, truth]);
  const x = (value: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * (value - least)) / (most - least);
  const y = (share: number): number => TOP + (HEIGHT - TOP - BOTTOM) * (1 - share);
  const unit = propertyOf(property)?.unit ?? '';
  const small = Number((window / 100).toPrecision(1));
  const said = (value: number): string => `${atStep(value, small)}${unit === '' ? '' : ` ${unit}`}`;
  const limitText =
    from !== null && to !== null
      ? `${from} to ${to} ${unit}`
      : from !== null
        ? `at least ${from} ${unit}`
        : `at most ${to} ${unit}`;
  const known = pooledNow(series);

  return (
    <section className="card stack" aria-labelledby={`${id}-head`}>
      <h2 id={`${id}-head`}>What the plan can tell apart</h2>
      <p>
        The plan in force takes <strong>{n}</strong> {n === 1 ? 'sample' : 'samples'} of {plan.test} a lot and
        asks for {RULE_WORDS[rule]} <strong>{limitText}</strong>
        {rule === 'share within' && ` at least ${plan.leastPwlPct} %`}
        {retest !== null && `; one retest may be made, and ${retest} counts`}.
      </p>
      <div className="oc">
        <svg
          viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
          role="img"
          aria-label={`Chance of being accepted against ${propertyWords(property).toLowerCase()}`}
        >
          <rect
            className="pc-frame"
            x={LEFT}
            y={TOP}
            width={WIDTH - LEFT - RIGHT}
            height={HEIGHT - TOP - BOTTOM}
          />
          <rect
            className="gr-band"
            x={x(Math.max(from ?? least, least))}
            width={x(Math.min(to ?? most, most)) - x(Math.max(from ?? least, least))}
            y={TOP}
            height={HEIGHT - TOP - BOTTOM}
          />
          {[0, 0.25, 0.5, 0.75, 1].map((share) => (
            <g key={share}>
              <line className="pc-grid" x1={LEFT} x2={WIDTH - RIGHT} y1={y(share)} y2={y(share)} />
              <text x={LEFT - 7} y={y(share) + 4} textAnchor="end">
                {share * 100} %
              </text>
            </g>
          ))}
          {ticks
            .filter((tick) => tick >= least && tick <= most)
            .map((tick) => (
              <text key={tick} x={x(tick)} y={HEIGHT - BOTTOM + 17} textAnchor="middle">
                {atStep(tick, step)}
              </text>
            ))}
          <polyline
            className="pc-run"
            points={curve.map((one) => `${x(one.mean).toFixed(1)},${y(one.chance).toFixed(1)}`).join(' ')}
          />
          <line className="pc-at" x1={x(truth)} x2={x(truth)} y1={TOP} y2={HEIGHT - BOTTOM} />
          <circle className="pc-chosen" cx={x(truth)} cy={y(chance)} r="8" />
          <text x={LEFT + (WIDTH - LEFT - RIGHT) / 2} y={HEIGHT - 6} textAnchor="middle">
            what the lot truly holds, {propertyWords(property).toLowerCase()}
            {unit === '' ? '' : `, ${unit}`}
          </text>
        </svg>
        <div className="stack">
          <p id={`${id}-said`} className="oc-said">
            A lot that truly holds <strong className="num">{said(truth)}</strong>{' '}
            <strong className="num">{chanceWords(chance)}</strong> to be accepted.
          </p>
          <Slider
            label="What the lot truly holds"
            value={truth}
            min={Number(low.toPrecision(4))}
            max={Number(high.toPrecision(4))}
            step={small}
            said={said(truth)}
            onChange={setTruth}
          />
          <Slider
            label="Spread between samples of one lot"
            value={between}
            min={0}
            max={window * 0.6}
            step={small / 2}
            said={said(between)}
            onChange={setBetween}
          />
          <Slider
            label="Spread of the test itself"
            value={test}
            min={0}
            max={window * 0.6}
            step={small / 2}
            said={said(test)}
            onChange={setTest}
          />
          <p className="soft-line">
            {measured
              ? `Results of one lot lie ${pooled.sigma.toFixed(3)} apart (standard deviation over ${pooled.lots} lots); the test takes its part of it.`
              : 'No lot with two results yet: the spreads are from memory; set your own.'}{' '}
            {known}
          </p>
        </div>
      </div>
    </section>
  );
}

const pooledNow = (series: Series): string =>
  series.length === 0
    ? ''
    : `Mean of the lots shown: ${(series.reduce((sum, { value }) => sum + value, 0) / series.length).toFixed(2)}.`;
