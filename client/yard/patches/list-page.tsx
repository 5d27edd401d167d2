/** One patch list: what it takes, by route and hole by hole, and what may be done with it. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { PatchList } from '../../../machines/yard/patches/patch.types.ts';
import type { PatchesView } from '../../../machines/yard/patches/view.ts';
import { plural } from '../../format/format.ts';
import { useLive } from '../../live/store.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { saveAs } from '../../replay/notes/save-as.ts';
import { listCsv } from './list-csv.ts';
import { OrderDialog } from './order-dialog.tsx';
import { Orders } from './orders.tsx';
import { PatchTable } from './patch-table.tsx';
import { RouteSums } from './route-sums.tsx';
import { type PatchesHere, usePatches } from './use-patches.ts';
import { BookWaiting } from './waiting.tsx';
import { dayWords } from './words.ts';

const HOW = { typed: 'typed', pasted: 'pasted', file: 'read from a file' } as const;

const sourceWords = ({ source, takenAt }: PatchList, by: string): string =>
  [
    `${HOW[source.how]}${source.file === null ? '' : ` (${source.file})`} by ${by}, ${dayWords(takenAt)} ${takenAt.slice(11, 16)}`,
    source.leftOut > 0 ? `${plural(source.leftOut, 'row')} that were not sound left out` : '',
  ]
    .filter((words) => words !== '')
    .join('; ');

type Asking = 'order' | 'takeBack' | 'finish' | null;

function Acts({
  list,
  book,
  onAsk,
}: {
  readonly list: PatchList;
  readonly book: PatchesHere;
  readonly onAsk: (what: Asking) => void;
}) {
  const barred = book.whyNot('makeOrder');
  const ask = (what: Asking) => (barred === null ? onAsk(what) : book.asked.explain([barred]));
  return (
    <div className="row">
      <Link href={`/yard/patches/${list.id}/sheet`} className="button">
        Sheet for the crew
      </Link>
      <button
        type="button"
        className="button"
        onClick={() => saveAs(`${list.id}.csv`, listCsv(list), 'text/csv;charset=utf-8')}
      >
        Save as CSV
      </button>
      {list.state === 'open' && (
        <>
          <button
            type="button"
            className="button"
            data-barred={barred !== null}
            onClick={() => ask('takeBack')}
          >
            Take back
          </button>
          <button
            type="button"
            className="button"
            data-barred={barred !== null}
            onClick={() => ask('finish')}
          >
            Finish
          </button>
          <button
            type="button"
            className="button primary"
            data-barred={barred !== null}
            onClick={() => ask('order')}
          >
            Order mix
          </button>
        </>
      )}
    </div>
  );
}

function Opened({
  list,
  view,
  book,
}: {
  readonly list: PatchList;
  readonly view: PatchesView;
  readonly book: PatchesHere;
}) {
  const [asking, setAsking] = useState<Asking>(null);
  const orders = view.orders.filter((order) => order.lists.includes(list.id));
  const by = useLive((live) => live.people.find(({ id }) => id === list.by)?.name ?? list.by);
  const close = () => setAsking(null);
  return (
    <div className="stack yp">
      <section className="card stack" aria-labelledby="yp-list">
        <Link href="/yard/patches" className="yp-back">
          ← All patch lists
        </Link>
        <div className="yp-head">
          <div>
            <h2 id="yp-list">
              {list.name} <span className="tag">{list.state}</span>
            </h2>
            <p className="soft">
              <span className="num">{list.id}</span>, {sourceWords(list, by)}.
            </p>
          </div>
          <Acts list={list} book={book} onAsk={setAsking} />
        </div>
        <Refusal because={asking === null ? book.asked.refusal : null} onClose={book.asked.clear} />
        {list.state === 'open' ? (
          <RouteSums list={list} />
        ) : (
          <p>
            This list is {list.state}: its holes are found in the record. It had{' '}
            {plural(list.sum.patches, 'hole')}.
          </p>
        )}
      </section>
      {orders.length > 0 && (
        <section className="card stack" aria-labelledby="yp-its-orders">
          <h2 id="yp-its-orders">Its orders</h2>
          <Orders orders={orders} book={book} today={view.at.slice(0, 10)} />
        </section>
      )}
      {list.state === 'open' && <PatchTable list={list} basis={view.basis} book={book} />}
      {asking === 'order' && <OrderDialog list={list} view={view} book={book} onClose={close} />}
      {asking === 'takeBack' && (
        <ConfirmDialog
          title={`Take back ${list.id}`}
          words="The list stays on record as taken back, and counts for nothing any more. To have it again, take it anew."
          go="Take the list back"
          needsReason
          onGo={(reason) => {
            close();
            void book.put({ do: 'takeBackList', list: list.id, reason }, `List ${list.id} taken back.`);
          }}
          onClose={close}
        />
      )}
      {asking === 'finish' && (
        <ConfirmDialog
          title={`Finish ${list.id}`}
          words="A finished list is kept as its sums; nothing in it can be changed or laid any more."
          go="Finish the list"
          onGo={() => {
            close();
            void book.put({ do: 'finishList', list: list.id }, `List ${list.id} finished.`);
          }}
          onClose={close}
        />
      )}
    </div>
  );
}

export function ListPage({ id }: { readonly id: string }) {
  const book = usePatches();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  const list = view.lists.find((one) => one.id === id);
  if (list === undefined)
    return (
      <section className="card stack">
        <h2>There is no patch list {id}</h2>
        <p>
          <Link href="/yard/patches">See all patch lists.</Link>
        </p>
      </section>
    );
  return <Opened list={list} view={view} book={book} />;
}
