/** The lab's arithmetic: judging a lot, charts over years of lots, acceptance curves, and the lot's papers. */
import { judge } from '../../machines/lab/judge/index.ts';
import { breakdown, chart, ocCurve, type Point, planInForce } from '../../machines/lab/stats/index.ts';
import { makeReport } from '../../machines/reports/report.ts';
import { envelopeOf, renderReport } from '../../server/reports/render.ts';
import { result, shippedMix, shippedSpecification, wholeLot } from '../lab/judge/support.ts';
import { normals } from '../lab/stats/normals.ts';
import { LOT, labLife, labScenario, labWorkOfTold } from '../reports/support/lab.ts';
import { shiftOf, sourceOf } from '../reports/support/shift.ts';
import { bestSeconds, type Figure } from './measure.ts';

const TIMES = 3;
/** As many as the book keeps the figures of: about a year of lots. */
const LOTS = 2500;
const PER_RUN = 1000;

const seriesOf = (lots: number): Point[] => {
  const next = normals(20260511);
  return Array.from({ length: lots }, (_, i) => ({
    lot: `260511-${i + 1}`,
    at: '2026-05-11T06:00:00',
    value: 5 + 0.13 * next(),
    operator: i % 3 === 0 ? 'wrenna' : 'tibor',
  }));
};

export async function benchLab(): Promise<Figure[]> {
  const spec = shippedSpecification('emulsion-patch');
  const mix = shippedMix('emulsion-patch');
  const gradings = [12.5, 9.5, 4.75, 2.36, 0.6, 0.075].flatMap((mm) =>
    [1, 2].map((sample) => result(sample, `passing:${mm}`, mm > 9.5 ? 100 : mm < 1 ? 1 : 30)),
  );
  const results = [
    ...gradings,
    result(3, 'residualBinderMixPct', 4.9),
    result(4, 'residualBinderMixPct', 5.1),
    result(5, 'bondKgCm2', 2.6),
    result(6, 'workable', 1),
    result(7, 'coatedPct', 95),
  ];
  const judging = await bestSeconds(TIMES, () => {
    for (let i = 0; i < PER_RUN; i += 1) judge(spec, results, { ...wholeLot, samples: [], mix });
  });
  const series = seriesOf(LOTS);
  const charting = await bestSeconds(TIMES, () => {
    chart(series, { baseline: 100 });
  });
  const apart = await bestSeconds(TIMES, () => {
    breakdown(series, 'operator');
  });
  const plan = planInForce(spec, 'residualBinderMixPct', 0.8);
  if (plan === null) throw new Error('the shipped specification has no plan for the binder');
  const spread = { between: 0.12, test: 0.18 };
  const range = { from: 4, to: 6, steps: 90 };
  const each = await bestSeconds(TIMES, () => {
    ocCurve(plan, spread, range);
  });
  const share = await bestSeconds(TIMES, () => {
    ocCurve({ ...plan, n: 5, rule: 'share within', retest: null }, spread, range);
  });
  const life = labLife();
  const lab = labWorkOfTold(life);
  const source = sourceOf(shiftOf(life, { scenario: labScenario(), lab }));
  const paper = await bestSeconds(TIMES, async () => {
    const made = makeReport('certificate', source, { lot: LOT });
    if (!made.ok) throw new Error(made.why);
    await renderReport(envelopeOf(made.report), 'pdf');
  });
  return [
    { id: 'lab.judge', what: 'lots of seven samples judged', value: PER_RUN / judging, unit: 'a second' },
    {
      id: 'lab.charts',
      what: `all charts over ${LOTS} lots, with signals`,
      value: charting * 1000,
      unit: 'ms',
    },
    { id: 'lab.breakdown', what: `breakdown of ${LOTS} lots by operator`, value: apart * 1000, unit: 'ms' },
    {
      id: 'lab.oc.each',
      what: 'acceptance curve, each of 2 with retest, 91 points',
      value: each * 1000,
      unit: 'ms',
    },
    {
      id: 'lab.oc.share',
      what: 'acceptance curve, share within from 5, 91 points',
      value: share * 1000,
      unit: 'ms',
    },
    {
      id: 'lab.certificate',
      what: 'certificate of a lot: made and written as PDF',
      value: paper * 1000,
      unit: 'ms',
    },
  ];
}
