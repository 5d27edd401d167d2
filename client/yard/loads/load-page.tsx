/** One load in the hand of who drives or lays it: big buttons, what is aboard, what was laid where, what comes back. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { LoadView } from '../../../machines/yard/stock/views/loads.ts';
import { usePersonName } from '../../live/people.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { AskDialog, MayButton, ReasonField, StockWaiting } from '../stock/parts.tsx';
import { useStock } from '../stock/use-stock.ts';
import { mass, when } from '../stock/words.ts';
import { LayPatch } from './lay-patch.tsx';
import { LOAD_SHAPE, storyOf } from './overview.tsx';
import { ReturnDialog } from './return-dialog.tsx';
import { WeighOutDialog } from './weigh-out-dialog.tsx';

type Open = 'weigh' | 'return' | 'cancel' | { readonly laid: number };

/** "lot 260511-1", "lots 260511-1, 260512-1" */
const lotsWords = (lots: readonly { readonly lot: string }[]): string =>
  `${lots.length === 1 ? 'lot' : 'lots'} ${lots.map((one) => one.lot).join(', ')}`;

function Cautions({ load }: { readonly load: LoadView }) {
  return (
    <p className="sk-caution">
      <Mark shape="triangle" />
      <span>
        {load.family === 'cutback'
          ? 'Its vapour burns: no flame, no smoking, no sparks near load, heap or hole. Fresh mix may be hot. '
          : 'Irritates skin and eyes; keep it from frost. '}
        Guard the crew against traffic before anyone steps on the road.
      </span>
    </p>
  );
}

export function LoadPage({ id }: { readonly id: string }) {
  const book = useStock();
  const [open, setOpen] = useState<Open | null>(null);
  const [reason, setReason] = useState('');
  const nameOf = usePersonName();
  const { view } = book;
  if (view === null || view.yard === null) return <StockWaiting book={book} />;
  const load = view.loads.find((one) => one.id === id);
  if (load === undefined)
    return (
      <section className="card stack">
        <p>There is no load {id} at hand. Older ones are found under Records.</p>
        <div>
          <Link href="/yard/loads" className="button">
            All loads
          </Link>
        </div>
      </section>
    );
  const close = () => {
    setOpen(null);
    setReason('');
  };
  const away = load.state === 'on the road';
  const laidN = typeof open === 'object' && open !== null ? open.laid : null;
  return (
    <div className="stack sk sk-hand">
      <div className="row">
        <Link href="/yard/loads" className="button">
          All loads
        </Link>
        <a className="button" href={`/api/loads/${load.id}/ticket.pdf`} target="_blank" rel="noreferrer">
          Ticket (PDF)
        </a>
      </div>
      <section className="card stack" aria-label={`Load ${load.id}`}>
        <div className="sk-load-head">
          <h2 className="num">{load.id}</h2>
          <span className="sk-state">
            <Mark shape={LOAD_SHAPE[load.state]} />
            {load.state}
          </span>
        </div>
        <p>
          {load.mixName}
          {load.as === 'bags' ? ', in bags' : ''}, {load.vehicle}
          {load.crew !== '' && `, ${load.crew}`}
        </p>
        {away && (
          <p className="num">
            <span className="sk-big">{mass(load.aboardKg)}</span> aboard
            {load.aboard.length > 0 && <span className="soft">, of {lotsWords(load.aboard)}</span>}
          </p>
        )}
        <p className="num soft">{storyOf(load)}.</p>
        {load.byConcession.length > 0 && (
          <p className="sk-warn">Lot {load.byConcession.join(', ')} left by concession.</p>
        )}
        <Cautions load={load} />
        {open === null && <Refusal because={book.asked.refusal} onClose={book.asked.clear} />}
        <div className="row">
          {load.state === 'made out' && (
            <>
              <MayButton book={book} what="weighOut" primary onClick={() => setOpen('weigh')}>
                Weigh out
              </MayButton>
              <MayButton book={book} what="cancelLoad" onClick={() => setOpen('cancel')}>
                Cancel it
              </MayButton>
            </>
          )}
          {away && (
            <MayButton book={book} what="returnMix" onClick={() => setOpen('return')}>
              Bring back or waste the rest
            </MayButton>
          )}
        </div>
      </section>
      {away && <LayPatch book={book} load={load} />}
      {load.laid.length > 0 && (
        <section className="card stack" aria-label="Laid">
          <h2>Laid</h2>
          <ul className="sk-lots">
            {[...load.laid].reverse().map((one) => (
              <li key={one.n}>
                <Mark shape="check" />
                <span>
                  <strong className="num">{one.patch}</strong> {one.where}
                </span>
                <strong className="num">{mass(one.grams / 1000)}</strong>
                <span className="sk-more">
                  {when(one.at)} by {nameOf(one.by.person)}
                  {one.layers.length > 0 && `, layers ${one.layers.join(' + ')} mm`}, {lotsWords(one.lots)}
                </span>
                <span className="sk-more">
                  <MayButton book={book} what="reverseLaid" onClick={() => setOpen({ laid: one.n })}>
                    Not laid there after all
                  </MayButton>
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      {open === 'weigh' && <WeighOutDialog book={book} load={load} onClose={close} />}
      {open === 'return' && <ReturnDialog book={book} load={load} places={view.places} onClose={close} />}
      {open === 'cancel' && (
        <AskDialog
          title={`Cancel ${load.id}`}
          go="Cancel the load"
          danger
          book={book}
          onGo={() => book.put({ do: 'cancelLoad', load: load.id, reason }, `Load ${load.id} cancelled.`)}
          onClose={close}
        >
          <ReasonField value={reason} onChange={setReason} />
        </AskDialog>
      )}
      {laidN !== null && (
        <AskDialog
          title="Not laid there after all"
          go="Take it back"
          book={book}
          onGo={() =>
            book.put(
              { do: 'reverseLaid', load: load.id, n: laidN, reason },
              'Taken back: it is aboard again.',
            )
          }
          onClose={close}
        >
          <p>The mix counts as aboard again; both entries stay in the record.</p>
          <ReasonField value={reason} onChange={setReason} />
        </AskDialog>
      )}
    </div>
  );
}
