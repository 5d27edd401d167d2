/** All patch lists, newest first, and the orders made from them. */
import { Link } from 'wouter';
import type { PatchList } from '../../../machines/yard/patches/patch.types.ts';
import { plural } from '../../format/format.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { Orders } from './orders.tsx';
import { Scroll } from './scroll.tsx';
import { usePatches } from './use-patches.ts';
import { BookWaiting } from './waiting.tsx';
import { dayWords, mass } from './words.ts';

function ListRow({ list }: { readonly list: PatchList }) {
  const { sum } = list;
  const old = list.state !== 'open';
  return (
    <tr className={old ? 'yp-old' : ''}>
      <td>
        <Link href={`/yard/patches/${list.id}`} className="yp-link">
          <strong>{list.name}</strong>
          <span className="soft num">{list.id}</span>
        </Link>
      </td>
      <td>{dayWords(list.takenAt)}</td>
      <td className="num">{sum.patches}</td>
      <td className="num">{mass(sum.mixKg)}</td>
      <td className="num">{sum.laidKg > 0 ? mass(sum.laidKg) : '–'}</td>
      <td>
        <span className="tag">{list.state}</span>
      </td>
    </tr>
  );
}

export function Overview() {
  const book = usePatches();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  return (
    <div className="stack yp">
      <section className="card stack" aria-labelledby="yp-lists">
        <div className="yp-head">
          <h2 id="yp-lists">Patch lists</h2>
          <div className="row">
            <Link href="/yard/patches/figures" className="button">
              Figures of the take-off
            </Link>
            <Link href="/yard/patches/new" className="button primary">
              New patch list
            </Link>
          </div>
        </div>
        {view.lists.length === 0 ? (
          <p className="soft yp-empty">
            No list yet. A patch list says where the holes are and how large; from it follow the mix, the
            order, the week's plan and the loads. Type one, paste one from a spreadsheet, or open a CSV file.
          </p>
        ) : (
          <Scroll label="All patch lists">
            <table className="yp-table yp-lists">
              <thead>
                <tr>
                  <th scope="col">List</th>
                  <th scope="col">Taken</th>
                  <th scope="col" className="num">
                    Patches
                  </th>
                  <th scope="col" className="num">
                    Mix
                  </th>
                  <th scope="col" className="num">
                    Laid
                  </th>
                  <th scope="col">State</th>
                </tr>
              </thead>
              <tbody>
                {view.lists.map((list) => (
                  <ListRow key={list.id} list={list} />
                ))}
              </tbody>
            </table>
          </Scroll>
        )}
      </section>
      <section className="card stack" aria-labelledby="yp-orders">
        <div className="yp-head">
          <h2 id="yp-orders">Orders for mix</h2>
          <span className="soft">{plural(view.orders.length, 'order')}</span>
        </div>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <Orders orders={view.orders} book={book} today={view.at.slice(0, 10)} />
      </section>
    </div>
  );
}
