/** What the shift came to, shown when it has ended, with the ways to the whole of it. */
import { Link } from 'wouter';
import { formatTonnes, plural } from '../format/format.ts';
import { SESSION } from '../live/session.ts';
import { useLive } from '../live/store.ts';
import { SealCard } from '../shift-close/seal-card.tsx';

export function ShiftSum() {
  const madeKg = useLive((live) => live.view?.shift.madeKg ?? 0);
  const batches = useLive((live) => live.view?.shift.batchesDone ?? 0);
  const lots = useLive((live) => live.view?.lots.length ?? 0);
  const wasteKg = useLive((live) => live.view?.plant.wasteKg ?? 0);
  return (
    <div className="shift-sum stack">
      <p className="lot-mass num">
        {formatTonnes(madeKg)} <span className="soft">made</span>
      </p>
      <p className="num">
        {plural(batches, 'batch', 'batches')} in {plural(lots, 'lot')}; {formatTonnes(wasteKg)} in the waste
        skip.
      </p>
      <SealCard />
      <p>
        Look through it under <Link href="/lots">{SESSION === null ? 'Lab' : 'Lots'}</Link> and{' '}
        <Link href="/records">Records</Link>.
      </p>
    </div>
  );
}
