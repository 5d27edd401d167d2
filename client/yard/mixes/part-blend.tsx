/** Blending: sliders by hand or the solver, the grading chart, the sieves in figures, and what each bin holds. */
import { useState } from 'react';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import type { BinFigures } from '../../../machines/yard/mixes/bins.ts';
import type { BlendSheet } from '../../../machines/yard/mixes/blend-sheet.ts';
import { allShares, drawnShares, withShare } from '../../../machines/yard/mixes/hand-blend.ts';
import type { MixesView, MixView } from '../../../machines/yard/mixes/view.ts';
import { Mark } from '../../parts/mark.tsx';
import { BinDialog } from './bin-dialog.tsx';
import { FindBlend } from './find-blend.tsx';
import { GradingChart, type LotLine } from './grading-chart.tsx';
import { ShareSlider } from './share-slider.tsx';
import type { MixesHere } from './use-mixes.ts';
import { figure } from './words.ts';

const NEWEST_LOTS = 3;
const PASSING = 'passing:';

const lotLines = (mix: MixView): LotLine[] =>
  mix.lots
    .map((lot) => ({
      lot: lot.lot,
      points: lot.results
        .filter(({ property }) => property.startsWith(PASSING))
        .map(({ property, value }) => ({
          sieveMm: Number(property.slice(PASSING.length)),
          passingPct: value,
        })),
    }))
    .filter((lot) => lot.points.length > 0)
    .slice(0, NEWEST_LOTS);

function SieveTable({ blend }: { readonly blend: BlendSheet }) {
  if (blend.sieves.length === 0)
    return (
      <p className="soft">
        No band: the mix names no specification, or the shift was opened without it. The chart shows the blend
        alone.
      </p>
    );
  return (
    <div className="mx-scroll">
      <table className="mx-table mx-sieves">
        <thead>
          <tr>
            <th scope="col">Sieve</th>
            {blend.sieves.map((one) => (
              <th key={one.sieveMm} scope="col" className="num">
                {one.sieveMm} mm
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="num">
          <tr>
            <th scope="row">Band, % passing</th>
            {blend.sieves.map((one) => (
              <td key={one.sieveMm}>
                {one.fromPct === one.toPct ? one.toPct : `${one.fromPct}–${one.toPct}`}
              </td>
            ))}
          </tr>
          <tr>
            <th scope="row">Blend</th>
            {blend.sieves.map((one) => (
              <td key={one.sieveMm} className={one.insidePct < -0.05 ? 'warn-words' : ''}>
                {one.insidePct < -0.05 && <Mark shape="triangle" />}{' '}
                <strong>{figure(one.passingPct, 1)}</strong>
              </td>
            ))}
          </tr>
        </tbody>
      </table>
    </div>
  );
}

function BinRow({
  bin,
  share,
  onShare,
  onDescribe,
}: {
  readonly bin: BinFigures;
  readonly share: number;
  readonly onShare: (pct: number) => void;
  readonly onDescribe: () => void;
}) {
  return (
    <li className="mx-binrow">
      <ShareSlider
        label={`Bin ${bin.bin}, ${bin.name} ${bin.size}`}
        value={share}
        said={`${figure(share, 1)} %`}
        onChange={onShare}
      />
      <button type="button" className="button quiet" onClick={onDescribe}>
        {bin.kind === 'crushed stone' ? 'What it holds' : bin.kind}
        {bin.analysis !== null && !bin.described && (
          <span className="mx-new">
            <Mark shape="dot" /> new analysis
          </span>
        )}
      </button>
    </li>
  );
}

export function PartBlend({
  mix,
  view,
  content,
  blend,
  specification,
  leanPct,
  onLean,
  onChange,
  book,
}: {
  readonly mix: MixView;
  readonly view: MixesView;
  readonly content: Mix;
  readonly blend: BlendSheet;
  readonly specification: Specification | null;
  /** Where the target lies between the coarse edge of the band, 0 %, and its fine edge, 100 %. */
  readonly leanPct: number;
  readonly onLean: (leanPct: number) => void;
  readonly onChange: (field: string, content: Mix) => void;
  readonly book: MixesHere;
}) {
  const [describing, setDescribing] = useState<number | null>(null);
  const shares = allShares(
    content.aggregates,
    view.bins.map((bin) => bin.bin),
  );
  const described = view.bins.find((bin) => bin.bin === describing);
  return (
    <section className="card stack" aria-labelledby="mx-blend">
      <h2 id="mx-blend">Blend</h2>
      <GradingChart
        blend={blend}
        bins={view.bins.filter((bin) => bin.grading.length > 0)}
        lots={lotLines(mix)}
      />
      <SieveTable blend={blend} />
      <div className="mx-two">
        <div className="stack">
          <h3>Shares of dry aggregate, by hand</h3>
          <ul className="mx-bins">
            {view.bins.map((bin) => (
              <BinRow
                key={bin.bin}
                bin={bin}
                share={shares.find((one) => one.bin === bin.bin)?.dryPct ?? 0}
                onShare={(pct) =>
                  onChange(`share ${bin.bin}`, {
                    ...content,
                    aggregates: drawnShares(withShare(shares, bin.bin, pct)),
                  })
                }
                onDescribe={() => setDescribing(bin.bin)}
              />
            ))}
          </ul>
          <p className="soft">Moving one bin lets the others make room in proportion.</p>
        </div>
        <FindBlend
          mixId={mix.id}
          bins={view.bins}
          blend={blend}
          leanPct={leanPct}
          onLean={onLean}
          onTake={(taken) => onChange('blend', { ...content, aggregates: [...taken] })}
        />
      </div>
      <dl className="mx-facts">
        <div>
          <dt>Specific surface</dt>
          <dd className="num">{figure(blend.surfaceM2Kg, 1)} m²/kg</dd>
        </div>
        <div>
          <dt>Water absorption</dt>
          <dd className="num">{figure(blend.absorptionPct)} %</dd>
        </div>
        <div>
          <dt>Reclaimed</dt>
          <dd className="num">{figure(blend.reclaimedPct, 1)} %</dd>
        </div>
        <div>
          <dt>Specification</dt>
          <dd>{specification === null ? 'none' : specification.name}</dd>
        </div>
      </dl>
      {described !== undefined && (
        <BinDialog bin={described} book={book} onClose={() => setDescribing(null)} />
      )}
    </section>
  );
}
