/** Trends: one property over the lots on four charts, what the signals say, what changed, and the plan's own curve. */
import { useMemo, useState } from 'react';
import { Link, useLocation, useSearch } from 'wouter';
import { seriesOf } from '../../../machines/lab/series.ts';
import { chart } from '../../../machines/lab/stats/index.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { PointChart } from '../plot/point-chart.tsx';
import { LabStanding } from '../standing.tsx';
import { personName, propertyWords, valueWords, whenWords } from '../words.ts';
import { aimOf } from './aim.ts';
import { Breakdowns } from './breakdowns.tsx';
import { Capability } from './capability.tsx';
import { limitsFor, plannedOf } from './limits-for.ts';
import { OcCurve } from './oc-curve.tsx';
import { save } from './save.ts';
import { csvOf, propertiesOf } from './series.ts';
import './trends.css';

/** Where centre and spread of the charts come from: what the mix is made to, all lots shown, or the first ones. */
const BASES = ['aim', 'all', '4', '10', '20'] as const;
type Basis = (typeof BASES)[number];
const BASIS_WORDS: { readonly [B in Basis]: string } = {
  aim: 'what the mix is made to',
  all: 'all lots shown',
  '4': 'the first 4 lots',
  '10': 'the first 10 lots',
  '20': 'the first 20 lots',
};
const SHOWN = 60;

export function TrendsPage() {
  const lab = useLab();
  const search = useSearch();
  const [, go] = useLocation();
  const query = useMemo(() => new URLSearchParams(search), [search]);
  const mixes = [...new Set(lab.view.lots.map(({ mixId }) => mixId))];
  const wanted = query.get('lot');
  const mix = query.get('mix') ?? lab.view.lots.find(({ lot }) => lot === wanted)?.mixId ?? mixes[0] ?? '';
  const ofMix = useMemo(() => lab.view.lots.filter(({ mixId }) => mixId === mix), [lab.view.lots, mix]);
  const measured = propertiesOf(ofMix);
  const properties = measured.length > 0 ? measured : plannedOf(lab.view, mix);
  const property =
    properties.find((one) => one === query.get('property')) ?? properties[0] ?? 'residualBinderMixPct';
  const [wantedBasis, setBasis] = useState<Basis>('aim');
  const [chosen, setChosen] = useState<string | null>(wanted);
  const series = useMemo(() => seriesOf(ofMix, property).slice(-SHOWN), [ofMix, property]);
  const aim = useMemo(() => aimOf(lab.view, mix, property), [lab.view, mix, property]);
  const basis = wantedBasis === 'aim' && aim === null ? 'all' : wantedBasis;
  const charted = useMemo(() => {
    if (series.length === 0) return null;
    if (basis === 'aim' && aim !== null) return chart(series, aim);
    return chart(series, basis === 'all' || basis === 'aim' ? {} : { baseline: Number(basis) });
  }, [series, basis, aim]);
  const limits = limitsFor(lab.view, mix, property);
  const set = (name: string, value: string) => {
    const next = new URLSearchParams(query);
    next.set(name, value);
    next.delete('lot');
    go(`/lab/trends?${next}`, { replace: true });
  };
  const unit = propertyOf(property)?.unit ?? '';

  return (
    <LabFrame title="Lab" under="Each point is a lot, the mean of its results that count.">
      <LabStanding lab={lab}>
        <div className="row lab-filters">
          <label htmlFor="trend-mix">Mix</label>
          <select
            id="trend-mix"
            className="narrow"
            value={mix}
            onChange={(event) => set('mix', event.target.value)}
          >
            {mixes.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
          <label htmlFor="trend-property">Property</label>
          <select
            id="trend-property"
            className="narrow"
            value={property}
            onChange={(event) => set('property', event.target.value)}
          >
            {properties.map((one) => (
              <option key={one} value={one}>
                {propertyWords(one)}
              </option>
            ))}
          </select>
          <label htmlFor="trend-base">Chart limits from</label>
          <select
            id="trend-base"
            className="narrow"
            value={basis}
            onChange={(event) => setBasis(BASES.find((one) => one === event.target.value) ?? 'all')}
          >
            {BASES.filter((one) => one !== 'aim' || aim !== null).map((one) => (
              <option key={one} value={one}>
                {BASIS_WORDS[one]}
              </option>
            ))}
          </select>
          {charted !== null && (
            <button
              type="button"
              className="button"
              onClick={() => save(`${mix}-${property.replace(':', '-')}.csv`, csvOf(charted, property))}
            >
              CSV of what is drawn
            </button>
          )}
        </div>
        {charted === null ? (
          <p className="card empty">
            No lot of this mix has a result yet. Charts begin with the first worksheet and set limits of their
            own from three lots on.
          </p>
        ) : (
          <Charts
            charted={charted}
            property={property}
            unit={unit}
            limits={limits}
            chosen={chosen}
            onChoose={setChosen}
            onOpen={(lot) => go(`/lab/lots/${lot}`)}
          />
        )}
        {charted !== null && (
          <div className="lot-halves">
            <Capability lots={charted.lots} limits={limits} property={property} />
            <Breakdowns lots={charted.lots} property={property} />
          </div>
        )}
        <OcCurve view={lab.view} mix={mix} property={property} series={series} />
      </LabStanding>
    </LabFrame>
  );
}

function Charts({
  charted,
  property,
  unit,
  limits,
  chosen,
  onChoose,
  onOpen,
}: {
  readonly charted: NonNullable<ReturnType<typeof chart>>;
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
            Fewer than three lots: nothing counts as a signal yet. Ranges and averages begin with the second
            lot.
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
                    <span className="soft">{one.chart}:</span> {one.words}
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
              <dd>{at.delivery ?? 'not known'}</dd>
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
                  : ofLot.map(({ chart: name, rule }) => `${name}: ${rule}`).join('; ')}
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
