/** The four charts of a series of lots, what they signal, and the lot behind the chosen point. */
import { Link } from 'wouter';
import type { Charted } from '../../../machines/lab/stats/index.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { PointChart } from '../plot/point-chart.tsx';
import { labelWords, personName, propertyWords, valueWords, whenWords } from '../words.ts';

/** The charts by the names that stand over them. */
const CHART_WORDS: { readonly [chart: string]: string } = {
  individuals: 'Individual lots',
  'moving range': 'Moving range',
  ewma: 'Weighted average',
  cusum: 'Sums',
};
const chartWords = (name: string): string => CHART_WORDS[name] ?? name;

export function Charts({
  charted,
  property,
  unit,
  limits,
  known,
  chosen,
  onChoose,
  onOpen,
}: {
  readonly charted: Charted;
  /** Centre and spread are known from elsewhere, so that the first lot can give a signal. */
  readonly known: boolean;
  readonly property: string;
  readonly unit: string;
  readonly limits: { readonly from: number | null; readonly to: number | null };
  readonly chosen: string | null;
  readonly onChoose: (lot: string) => void;
  readonly onOpen: (lot: string) => void;
}) {
  const people = useLive((live) => live.people);
  const { lots, individuals, ewma, cusum, signals, drift } = charted;
  const found = lots.findIndex(({ lot }) => lot === chosen);
  const selected = found === -1 ? lots.length - 1 : found;
  const at = lots[selected];
  const saysOn = (name: string, lot: string) =>
    signals.filter((one) => one.lot === lot && one.chart === name).map(({ rule }) => rule);
  const pointsOf = (name: string, values: readonly number[]) =>
    lots.map(({ lot }, i) => ({ key: lot, label: lot, value: values[i] ?? 0, signals: saysOn(name, lot) }));
  const select = (i: number) => onChoose(lots[i]?.lot ?? '');
  const open = (i: number) => onOpen(lots[i]?.lot ?? '');
  const common = { selected, onSelect: select, onOpen: open };
  const digits = Math.min(4, (propertyOf(property)?.decimals ?? 2) + 1);
  const said = (value: number): string => value.toFixed(digits).replace(/^-/, '−');
  const hasLimits = Number.isFinite(individuals.sigma);
  const ranges = [0, ...individuals.ranges];
  const spec = [
    ...(limits.from === null
      ? []
      : [{ value: limits.from, text: `least ${limits.from}`, style: 'spec' as const }]),
    ...(limits.to === null ? [] : [{ value: limits.to, text: `most ${limits.to}`, style: 'spec' as const }]),
  ];
  const ofLot = signals.filter(({ lot }) => lot === at?.lot);
  return (
    <>
      <section className="card stack" aria-labelledby="signals-head">
        <h2 id="signals-head">
          {signals.length === 0
            ? 'No signal'
            : signals.length === 1
              ? '1 signal'
              : `${signals.length} signals`}
        </h2>
        {lots.length < 3 && (
          <p className="soft">
            {known
              ? 'Fewer than three lots: they are held against what the mix is made to. Ranges begin with the second lot.'
              : 'Fewer than three lots: nothing counts as a signal yet. Ranges and averages begin with the second lot.'}
          </p>
        )}
        {drift !== null && <p className="drift">{drift.words}</p>}
        {signals.length > 0 && (
          <details open={signals.length <= 6}>
            <summary>All signals, lot by lot</summary>
            <ul className="signal-list">
              {signals.map((one) => (
                <li key={`${one.lot}${one.chart}${one.rule}`}>
                  <Mark shape="triangle" />
                  <button type="button" className="button" onClick={() => onChoose(one.lot)}>
                    {one.lot}
                  </button>
                  <span>
                    <span className="soft">{chartWords(one.chart)}:</span> {one.words}
                  </span>
                </li>
              ))}
            </ul>
          </details>
        )}
      </section>
      {at !== undefined && (
        <section className="card point-behind" aria-labelledby="behind-head" aria-live="off">
          <h2 id="behind-head" className="num">
            Lot {at.lot}
          </h2>
          <dl className="facts">
            <div>
              <dt>{propertyWords(property)}</dt>
              <dd className="num point-value">{valueWords(property, at.value)}</dd>
            </div>
            <div>
              <dt>Opened</dt>
              <dd className="num">{whenWords(at.at)}</dd>
            </div>
            <div>
              <dt>Operator</dt>
              <dd>{at.operator === undefined ? 'not known' : personName(people, at.operator)}</dd>
            </div>
            <div>
              <dt>Binder delivery</dt>
              <dd>{at.delivery === undefined ? 'not known' : labelWords(at.delivery, people, [])}</dd>
            </div>
            <div>
              <dt>Weighted average</dt>
              <dd className="num">{said(ewma.values[selected] ?? Number.NaN)}</dd>
            </div>
            <div>
              <dt>Signals</dt>
              <dd className={ofLot.length > 0 ? 'wants-words' : 'soft'}>
                {ofLot.length === 0
                  ? 'none'
                  : ofLot.map(({ chart: name, rule }) => `${chartWords(name)}: ${rule}`).join('; ')}
              </dd>
            </div>
          </dl>
          <Link className="button" href={`/lab/lots/${at.lot}`}>
            Open the lot
          </Link>
        </section>
      )}
      <div className="trend-charts">
        <section className="card">
          <PointChart
            title="Individual lots"
            unit={unit}
            points={pointsOf('individuals', individuals.values)}
            lines={[
              { value: individuals.centre, text: `centre ${said(individuals.centre)}`, style: 'centre' },
              ...(hasLimits
                ? [
                    {
                      value: individuals.upper,
                      text: `upper ${said(individuals.upper)}`,
                      style: 'limit' as const,
                    },
                    {
                      value: individuals.lower,
                      text: `lower ${said(individuals.lower)}`,
                      style: 'limit' as const,
                    },
                  ]
                : []),
              ...spec,
            ]}
            {...common}
          />
        </section>
        {hasLimits && (
          <>
            <section className="card">
              <PointChart
                title="Moving range"
                unit={unit}
                points={pointsOf('moving range', ranges)}
                lines={
                  hasLimits
                    ? [
                        {
                          value: individuals.meanRange,
                          text: `mean ${said(individuals.meanRange)}`,
                          style: 'centre',
                        },
                        {
                          value: individuals.upperRange,
                          text: `upper ${said(individuals.upperRange)}`,
                          style: 'limit',
                        },
                      ]
                    : []
                }
                {...common}
              />
            </section>
            <section className="card">
              <PointChart
                title={`Weighted average, newest counts ${ewma.lambda}`}
                unit={unit}
                points={pointsOf('ewma', ewma.values)}
                lines={[{ value: ewma.centre, text: `centre ${said(ewma.centre)}`, style: 'centre' }]}
                stepped={
                  hasLimits
                    ? [
                        { name: 'upper limit', values: ewma.upper },
                        { name: 'lower limit', values: ewma.lower },
                      ]
                    : []
                }
                {...common}
              />
            </section>
            <section className="card">
              <PointChart
                title="Sums above (line) and below (dashed) the centre"
                unit={unit}
                points={pointsOf('cusum', cusum.high).map((point, i) => ({
                  ...point,
                  // Of the two sums the one that has grown is the one that speaks.
                  markAt: Math.max(cusum.high[i] ?? 0, cusum.low[i] ?? 0),
                }))}
                besides={[{ name: 'below', values: cusum.low }]}
                lines={
                  hasLimits
                    ? [{ value: cusum.limit, text: `limit ${said(cusum.limit)}`, style: 'limit' }]
                    : []
                }
                {...common}
              />
            </section>
          </>
        )}
      </div>
      <p className="soft-line">
        Move over a chart, tap it, or use the arrow keys on it; Enter opens the lot. A triangle marks a
        signal.
      </p>
    </>
  );
}
