/** Binder: dose and residue either way round, absorbed and effective, water and total fluids, anti-strip. */
import { useState } from 'react';
import { doseForResiduePct } from '../../../machines/mix/binder-content.ts';
import { massPctOfVolumePct } from '../../../machines/mix/residue.ts';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { BinderSheet } from '../../../machines/yard/mixes/binder-sheet.ts';
import type { BlendSheet } from '../../../machines/yard/mixes/blend-sheet.ts';
import { Figures } from './figures.tsx';
import { NumberField } from './number-field.tsx';
import { figure, range } from './words.ts';

/** The middle of the residual binder asked for, % of mix, when the mix leaves less or more; else null. */
const middleToDose = ({ asked: { from, to }, residueOfMixPct }: BinderSheet): number | null => {
  if (from === null || to === null || from > to) return null;
  const residue = to2(residueOfMixPct);
  return residue >= from && residue <= to ? null : (from + to) / 2;
};

const to2 = (value: number): number => Math.round(value * 100) / 100;

/** A cutback's residue is printed in % by volume (ASTM D2027): this turns it into the % by mass a recipe needs. */
function VolumeResidue({ onTake }: { readonly onTake: (massPct: number) => void }) {
  const [volumePct, setVolume] = useState(80);
  const [residueKgM3, setResidue] = useState(1020);
  const [solventKgM3, setSolvent] = useState(810);
  const massPct = massPctOfVolumePct(volumePct, residueKgM3, solventKgM3);
  return (
    <details className="mx-more">
      <summary>Residue is printed in % by volume: turn it into % by mass</summary>
      <div className="mx-fields">
        <NumberField label="Residue" unit="% vol" value={volumePct} min={30} max={100} onChange={setVolume} />
        <NumberField
          label="Density of residue"
          unit="kg/m³"
          value={residueKgM3}
          min={900}
          max={1200}
          onChange={setResidue}
        />
        <NumberField
          label="Density of solvent"
          unit="kg/m³"
          value={solventKgM3}
          min={700}
          max={950}
          onChange={setSolvent}
        />
      </div>
      <p className="num">
        {figure(volumePct, 1)} × {figure(residueKgM3, 0)} ÷ ({figure(volumePct, 1)} × {figure(residueKgM3, 0)}{' '}
        + {figure(100 - volumePct, 1)} × {figure(solventKgM3, 0)}) ={' '}
        <strong>{figure(massPct)} % by mass</strong>
      </p>
      <button type="button" className="button" onClick={() => onTake(to2(massPct))}>
        Take {figure(massPct)} %
      </button>
    </details>
  );
}

export function PartBinder({
  content,
  binder,
  blend,
  onChange,
}: {
  readonly content: Mix;
  readonly binder: BinderSheet;
  readonly blend: BlendSheet;
  readonly onChange: (field: string, content: Mix) => void;
}) {
  const setBinder = (more: Partial<Mix['binder']>) =>
    onChange(Object.keys(more)[0] ?? 'binder', { ...content, binder: { ...content.binder, ...more } });
  const { fluids } = binder;
  const middlePct = middleToDose(binder);
  return (
    <section className="card stack" aria-labelledby="mx-binder">
      <h2 id="mx-binder">Binder</h2>
      <div className="mx-fields">
        <NumberField
          label="Dose, as delivered"
          unit="% of dry aggregate"
          value={content.binder.dosePct}
          min={0.1}
          max={15}
          step={0.05}
          onChange={(dosePct) => setBinder({ dosePct })}
        />
        <NumberField
          label="or residual binder"
          unit="% of mix"
          value={to2(binder.residueOfMixPct)}
          min={0.1}
          max={10}
          step={0.05}
          onChange={(pct) =>
            setBinder({ dosePct: to2(doseForResiduePct(pct, content.binder.residueMassPct)) })
          }
        />
        <NumberField
          label="Residue of the binder"
          unit="% by mass"
          value={content.binder.residueMassPct}
          min={30}
          max={100}
          step={0.5}
          onChange={(residueMassPct) => setBinder({ residueMassPct })}
        />
        <NumberField
          label="Anti-strip agent"
          unit="% of binder"
          value={content.antiStripPctOfBinder}
          max={3}
          step={0.1}
          onChange={(antiStripPctOfBinder) => onChange('antiStrip', { ...content, antiStripPctOfBinder })}
        />
        <NumberField
          label="Water wanted before the binder"
          unit="% of dry aggregate"
          value={content.preWetPct}
          max={6}
          step={0.1}
          onChange={(preWetPct) => onChange('preWet', { ...content, preWetPct })}
        />
      </div>
      {middlePct !== null && (
        <div className="row">
          <button
            type="button"
            className="button"
            onClick={() =>
              setBinder({ dosePct: to2(doseForResiduePct(middlePct, content.binder.residueMassPct)) })
            }
          >
            Dose for {figure(middlePct)} % of mix, the middle of what is asked
          </button>
        </div>
      )}
      {content.family === 'cutback' && (
        <VolumeResidue onTake={(residueMassPct) => setBinder({ residueMassPct })} />
      )}
      <div className="mx-two">
        <div>
          <h3>What it leaves</h3>
          <Figures
            rows={[
              {
                name: 'Residue on aggregate',
                value: `${figure(binder.residuePct)} %`,
                more: `${figure(content.binder.dosePct)} × ${figure(content.binder.residueMassPct, 1)} ÷ 100`,
              },
              {
                name: 'Residue of mix',
                value: `${figure(binder.residueOfMixPct)} %`,
                more: `${figure(binder.residuePct)} ÷ (100 + ${figure(binder.residuePct)})`,
              },
              {
                name: 'Asked for, of mix',
                value: range(binder.asked.from, binder.asked.to, '%'),
                more: `at ${figure(blend.absorptionPct)} % absorption`,
              },
              {
                name: 'Absorbed by the stone',
                value: `${figure(binder.absorbedPct)} %`,
                more: 'share of its water absorption',
              },
              {
                name: 'Effective, on aggregate',
                value: `${figure(binder.effectivePct)} %`,
                more: 'residue less absorbed',
              },
              {
                name: 'Film, on average',
                value: `${figure(binder.filmUm, 1)} µm`,
                more: `over ${figure(blend.surfaceM2Kg, 1)} m²/kg`,
              },
              ...(binder.oldBinderPct > 0
                ? [
                    {
                      name: 'Old binder of reclaimed stone',
                      value: `${figure(binder.oldBinderPct)} %`,
                      more: 'not counted as coating',
                    },
                  ]
                : []),
            ]}
          />
        </div>
        <div>
          <h3>{fluids === null ? 'Anti-strip' : 'Fluids, on dry aggregate'}</h3>
          {fluids !== null && (
            <>
              <FluidsBar fluids={fluids} />
              <Figures
                rows={[
                  { name: 'Emulsion', value: `${figure(fluids.binderPct)} %` },
                  { name: 'Water in the stone', value: `${figure(fluids.waterInStonePct)} %` },
                  { name: 'Water added', value: `${figure(fluids.waterAddedPct)} %` },
                  {
                    name: 'Total fluids',
                    value: `${figure(fluids.totalPct)} %`,
                    more: `runs off above ${figure(fluids.mostPct, 1)} %`,
                  },
                ]}
              />
            </>
          )}
          <Figures
            rows={[
              {
                name: 'Anti-strip, on dry aggregate',
                value: `${figure(binder.antiStripPct, 3)} %`,
                more: `${figure(content.antiStripPctOfBinder)} % of the binder`,
              },
            ]}
          />
        </div>
      </div>
    </section>
  );
}

function FluidsBar({ fluids }: { readonly fluids: NonNullable<BinderSheet['fluids']> }) {
  const full = Math.max(fluids.totalPct, fluids.mostPct) * 1.15;
  const x = (pct: number): number => (pct / full) * 300;
  const over = fluids.totalPct > fluids.mostPct;
  return (
    <svg
      className="mx-fluids"
      viewBox="0 0 300 34"
      role="img"
      aria-label={`Total fluids ${figure(fluids.totalPct)} of at most ${figure(fluids.mostPct)} %`}
    >
      <rect className="mx-fluid-binder" x="0" y="8" width={x(fluids.binderPct)} height="16" />
      <rect
        className="mx-fluid-stone"
        x={x(fluids.binderPct)}
        y="8"
        width={x(fluids.waterInStonePct)}
        height="16"
      />
      <rect
        className="mx-fluid-added"
        x={x(fluids.binderPct + fluids.waterInStonePct)}
        y="8"
        width={x(fluids.waterAddedPct)}
        height="16"
      />
      <line
        className={over ? 'mx-limit over' : 'mx-limit'}
        x1={x(fluids.mostPct)}
        x2={x(fluids.mostPct)}
        y1="2"
        y2="32"
      />
    </svg>
  );
}
