/** Every lot of the shift with its batches and samples, newest first. */
import { memo, useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { BatchView, LotView } from '../../machines/line/view.types.ts';
import { formatTonnes, plural } from '../format/format.ts';
import { LotBar, SAMPLE_SHAPE } from '../line/open-lot.tsx';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { reportPath, useHasReports } from '../reports/plants-own.ts';
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
          <>
            <Link className="button" href={`/lab/lots/${lot.id}`}>
              Lab work
            </Link>
            <Link className="button" href={reportPath('lot', { lot: lot.id })}>
              Lot file
            </Link>
          </>
        )}
      </div>
      {open && <BatchSheets batches={own} startsAt={startsAt} />}
    </li>
  );
});

/** Lots of the shift that is shown, with their batches; the page around them has the heading. */
export function LotsOfShift() {
  const lots = useLive((live) => live.view?.lots ?? NONE);
  if (lots.length === 0)
    return (
      <p className="card empty">
        No lot yet. The first batch opens one; it closes at 10 t or when the mix changes.
      </p>
    );
  return (
    <ul className="stack">
      {[...lots].reverse().map((lot) => (
        <Lot key={lot.id} lot={lot} />
      ))}
    </ul>
  );
}

/** What the shift has made so far, in one line. */
export function MadeThisShift() {
  const madeKg = useLive((live) => live.view?.shift.madeKg ?? 0);
  const batches = useLive((live) => live.view?.shift.batchesDone ?? 0);
  const wasteKg = useLive((live) => live.view?.plant.wasteKg ?? 0);
  return (
    <span className="num">
      {formatTonnes(madeKg)} made in {plural(batches, 'batch', 'batches')}, {formatTonnes(wasteKg)} in the
      waste skip
    </span>
  );
}

/** Where there is no lab, in a drill and in a replay, the lots are a page of their own. */
export function LotsPage() {
  return (
    <div className="page">
      <div className="page-head">
        <h1>Lots</h1>
        <p className="soft">
          <MadeThisShift />
        </p>
      </div>
      <LotsOfShift />
    </div>
  );
}
