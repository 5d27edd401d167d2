/** Trends: one property over the lots on four charts, what the signals say, what changed, and the plan's own curve. */
import { useMemo, useState } from 'react';
import { useLocation, useSearch } from 'wouter';
import { seriesOf } from '../../../machines/lab/series.ts';
import { chart } from '../../../machines/lab/stats/index.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import { mixName, propertyWords } from '../words.ts';
import { aimOf } from './aim.ts';
import { Breakdowns } from './breakdowns.tsx';
import { Capability } from './capability.tsx';
import { Charts } from './charts.tsx';
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
        {mixes.length > 0 && (
          <div className="row lab-filters">
            <label htmlFor="trend-mix">Mix</label>
            <select
              id="trend-mix"
              className="narrow"
              value={mix}
              onChange={(event) => set('mix', event.target.value)}
            >
              {mixes.map((one) => (
                <option key={one} value={one}>
                  {mixName(lab.view.mixes, one)}
                </option>
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
        )}
        {charted === null ? (
          <p className="card empty">
            {mixes.length === 0 ? 'No lot yet' : 'No lot of this mix has a result yet'}. Charts begin with the
            first worksheet and set limits of their own from three lots on.
          </p>
        ) : (
          <Charts
            charted={charted}
            property={property}
            unit={unit}
            limits={limits}
            known={basis === 'aim'}
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
