/** Every lot of the shift with its batches and samples, newest first. */
import { memo, useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { BatchView, LotView } from '../../machines/line/view.types.ts';
import { formatTonnes, plural } from '../format/format.ts';
import { LotBar, SAMPLE_SHAPE } from '../line/open-lot.tsx';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { REPORTS_PATH, reportPath, useHasReports } from '../reports/plants-own.ts';
import { BatchSheets } from './batch-sheets.tsx';
import { batchRanges } from './ranges.ts';

const NONE: readonly LotView[] = [];
const NO_BATCHES: readonly BatchView[] = [];

const Lot = memo(function Lot({ lot }: { readonly lot: LotView }) {
  const [open, setOpen] = useState(false);
  const hasReports = useHasReports();
  const batches = useLive((live) => live.view?.batches ?? NO_BATCHES);
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const own = useMemo(() => batches.filter((batch) => batch.lot === lot.id), [batches, lot.id]);
  return (
    <li className={`card lot ${lot.state === 'open' ? 'open' : ''}`}>
      <div className="lot-head">
        <h2>Lot {lot.id}</h2>
        <span className="tag">{lot.state}</span>
        <span className="soft">
          {lot.mix} · {lot.family} · bay {lot.bay}
        </span>
        <span className="lot-mass num">
          {formatTonnes(lot.massKg)} <span className="soft">of {lot.ofKg / 1000} t</span>
        </span>
      </div>
      <LotBar lot={lot} />
      <dl className="lot-more">
        <div>
          <dt>Batches</dt>
          <dd className="num">
            {lot.batches.length === 0
              ? 'none yet'
              : `${plural(lot.batches.length, 'batch', 'batches')}: ${batchRanges(lot.batches)}`}
          </dd>
        </div>
        <div>
          <dt>Samples</dt>
          <dd>
            {lot.samples.length === 0 && 'none asked for'}
            <ul className="lot-samples">
              {lot.samples.map((sample) => (
                <li key={sample.n} className={sample.state}>
                  <Mark shape={SAMPLE_SHAPE[sample.state]} />
                  <span>
                    Sample {sample.n} {sample.state}
                    {sample.atKg !== null && (
                      <span className="num soft"> at {formatTonnes(sample.atKg)}</span>
                    )}
                  </span>
                </li>
              ))}
            </ul>
          </dd>
        </div>
      </dl>
      <div className="row">
        {own.length > 0 && (
          <button type="button" className="button" aria-expanded={open} onClick={() => setOpen(!open)}>
            {open ? 'Hide the batch sheets' : 'Show the batch sheets'}
          </button>
        )}
        {hasReports && (
          <Link className="button" href={reportPath('lot', { lot: lot.id })}>
            Lot file
          </Link>
        )}
      </div>
      {open && <BatchSheets batches={own} startsAt={startsAt} />}
    </li>
  );
});

export function LotsPage() {
  const lots = useLive((live) => live.view?.lots ?? NONE);
  const madeKg = useLive((live) => live.view?.shift.madeKg ?? 0);
  const batches = useLive((live) => live.view?.shift.batchesDone ?? 0);
  const wasteKg = useLive((live) => live.view?.plant.wasteKg ?? 0);
  const hasReports = useHasReports();
  return (
    <div className="page">
      <div className="page-head">
        <h1>Lots</h1>
        <p className="soft num">
          {formatTonnes(madeKg)} made in {plural(batches, 'batch', 'batches')}, {formatTonnes(wasteKg)} in the
          waste skip
        </p>
      </div>
      {hasReports && (
        <p>
          Lots of this shift. Those of earlier shifts are in the record:{' '}
          <Link href={`${REPORTS_PATH}?kind=lot`}>find a lot and its batches</Link>.
        </p>
      )}
      {lots.length === 0 ? (
        <p className="card empty">
          No lot yet. The first batch opens one; it closes at 10 t or when the mix changes.
        </p>
      ) : (
        <ul className="stack">
          {[...lots].reverse().map((lot) => (
            <Lot key={lot.id} lot={lot} />
          ))}
        </ul>
      )}
    </div>
  );
}
