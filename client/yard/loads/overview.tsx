/** All loads, those that need a hand first, and a new one made out. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { LoadView } from '../../../machines/yard/stock/views/loads.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { MayButton, StockWaiting } from '../stock/parts.tsx';
import { useStock } from '../stock/use-stock.ts';
import { mass, when } from '../stock/words.ts';
import { MakeOut } from './make-out.tsx';
import { WeighOutDialog } from './weigh-out-dialog.tsx';

export const LOAD_SHAPE: { readonly [S in LoadView['state']]: Shape } = {
  'made out': 'ring',
  'on the road': 'flag',
  settled: 'check',
  cancelled: 'square',
};

/** What happened to it in one line. */
export const storyOf = (load: LoadView): string => {
  if (load.state === 'cancelled') return 'cancelled before it was weighed';
  if (load.weighed === null)
    return load.wouldDraw.length === 0
      ? 'nothing that may leave: wait for the lab'
      : `to be drawn now: lot ${load.wouldDraw.join(', then lot ')}`;
  const laidKg = load.laid.reduce((sum, one) => sum + one.grams, 0) / 1000;
  const backKg = load.returned.reduce((sum, one) => sum + one.grams, 0) / 1000;
  const wasteKg = load.wasted.reduce((sum, one) => sum + one.grams, 0) / 1000;
  return [
    `${mass(load.weighed.netGrams / 1000)} weighed out ${when(load.weighed.at)}`,
    ...(load.laid.length > 0
      ? [`${mass(laidKg)} laid in ${new Set(load.laid.map((one) => one.patch)).size} patches`]
      : []),
    ...(backKg > 0 ? [`${mass(backKg)} brought back`] : []),
    ...(wasteKg > 0 ? [`${mass(wasteKg)} wasted`] : []),
    ...(load.aboardKg > 0 ? [`${mass(load.aboardKg)} still aboard`] : []),
  ].join(', ');
};

export function Overview() {
  const book = useStock();
  const [making, setMaking] = useState(false);
  const [weighing, setWeighing] = useState<LoadView | null>(null);
  const { view } = book;
  if (view === null || view.yard === null) return <StockWaiting book={book} />;
  const open = view.loads.filter((one) => one.state === 'made out' || one.state === 'on the road');
  const over = view.loads.filter((one) => one.state === 'settled' || one.state === 'cancelled');
  return (
    <div className="stack sk">
      <div className="sk-head">
        <p className="soft">Only lots the lab has accepted, or released by concession, may leave.</p>
        {!making && (
          <MayButton book={book} what="makeOutLoad" primary onClick={() => setMaking(true)}>
            Make out a load
          </MayButton>
        )}
      </div>
      {making ? (
        <MakeOut book={book} view={view} onClose={() => setMaking(false)} />
      ) : (
        weighing === null && <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      )}
      <section className="stack" aria-label="Loads that need a hand">
        <h2>{open.length === 0 ? 'No load is waiting or away' : 'Waiting and away'}</h2>
        {open.map((load) => (
          <article key={load.id} className="card sk-load">
            <div className="sk-load-head">
              <h3 className="num">
                <Link href={`/yard/loads/${load.id}`}>{load.id}</Link>
              </h3>
              <span className="sk-state">
                <Mark shape={LOAD_SHAPE[load.state]} />
                {load.state}
              </span>
              <span>
                {mass(load.wantedGrams / 1000)} of {load.mixName}
                {load.as === 'bags' ? ', in bags' : ''} for {load.vehicle}
                {load.for.length > 0 && `, ${load.for.length} ${load.for.length === 1 ? 'patch' : 'patches'}`}
              </span>
            </div>
            <p className="num">{storyOf(load)}.</p>
            <div className="row">
              {load.state === 'made out' && (
                <MayButton book={book} what="weighOut" primary onClick={() => setWeighing(load)}>
                  Weigh out
                </MayButton>
              )}
              <Link href={`/yard/loads/${load.id}`} className="button">
                {load.state === 'made out' ? 'Open' : 'Lay patches, bring back'}
              </Link>
              <a
                className="button"
                href={`/api/loads/${load.id}/ticket.pdf`}
                target="_blank"
                rel="noreferrer"
              >
                Ticket (PDF)
              </a>
            </div>
          </article>
        ))}
      </section>
      {over.length > 0 && (
        <section className="card stack" aria-label="Loads that are over">
          <h2>Over</h2>
          <ul className="sk-lots">
            {over.slice(0, 40).map((load) => (
              <li key={load.id}>
                <Mark shape={LOAD_SHAPE[load.state]} />
                <span>
                  <Link href={`/yard/loads/${load.id}`} className="num">
                    {load.id}
                  </Link>{' '}
                  {load.mixName}, {load.vehicle}
                </span>
                <span>{load.state}</span>
                <span className="sk-more num">{storyOf(load)}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {weighing !== null && <WeighOutDialog book={book} load={weighing} onClose={() => setWeighing(null)} />}
    </div>
  );
}
