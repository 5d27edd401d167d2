/** The sheet the crew takes along: the holes by route, what each takes, and the cautions. */
import { Link } from 'wouter';
import { sumOf } from '../../../machines/yard/patches/take-off.ts';
import { Scroll } from './scroll.tsx';
import { usePatches } from './use-patches.ts';
import { BookWaiting } from './waiting.tsx';
import { dayWords, layers, mass, routeName, sizes } from './words.ts';

const CAUTIONS = [
  'Close the lane and guard the crew before anyone steps on the road.',
  'Cutback mix burns: no flame, no smoking, no sparks at truck, heap or hole.',
  'Gloves and safety footwear; prime and tack are hot or slippery.',
  'Cut to sound, vertical edges; clean and dry; prime granular base; tack bottom and sides.',
  'Compact each layer on its own; no layer below 25 mm or above 75 mm.',
];

export function Sheet({ id }: { readonly id: string }) {
  const book = usePatches();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  const list = view.lists.find((one) => one.id === id);
  if (list === undefined) return <p className="card">There is no patch list {id}.</p>;
  const routes = [...new Set(list.patches.map(({ route }) => route))];
  return (
    <div className="stack yp yp-sheet">
      <div className="row no-print">
        <Link href={`/yard/patches/${list.id}`} className="button">
          ← Back to the list
        </Link>
        <button type="button" className="button primary" onClick={() => window.print()}>
          Print
        </button>
      </div>
      <header className="card stack">
        <h2>
          {list.name} <span className="num soft">{list.id}</span>
        </h2>
        <p>
          {list.sum.patches} holes, {mass(list.sum.mixKg)} of mix. Taken {dayWords(list.takenAt)}. Sizes as
          measured; masses after cutting back {view.basis.trimMm} mm each side, waste {view.basis.wastePct} %.
        </p>
        <ul className="yp-cautions">
          {CAUTIONS.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </header>
      {routes.map((route) => {
        const patches = list.patches.filter((patch) => patch.route === route && patch.takenOut === null);
        const sum = sumOf(patches);
        return (
          <section className="card stack yp-sheet-route" key={route}>
            <h3>
              {routeName(route)}: {sum.patches} holes, {mass(sum.mixKg)} mix, {mass(sum.tackKg)} tack
              {sum.primeKg > 0 ? `, ${mass(sum.primeKg)} prime` : ''}
              {sum.crusherRunKg > 0 ? `, ${mass(sum.crusherRunKg)} crusher run` : ''}, {mass(sum.sandKg)} sand
            </h3>
            <Scroll label={`Holes of ${routeName(route)}`}>
              <table className="yp-table">
                <thead>
                  <tr>
                    <th scope="col">Row</th>
                    <th scope="col">Place</th>
                    <th scope="col">Length × width × depth</th>
                    <th scope="col">Layers, mm</th>
                    <th scope="col">By</th>
                    <th scope="col" className="num">
                      Mix, kg
                    </th>
                    <th scope="col" className="num">
                      Crusher run, kg
                    </th>
                    <th scope="col">Prime</th>
                    <th scope="col">Done</th>
                  </tr>
                </thead>
                <tbody>
                  {patches.map((patch) => (
                    <tr key={patch.row}>
                      <td className="num">{patch.row}</td>
                      <td>{patch.place}</td>
                      <td>{sizes(patch)}</td>
                      <td>{layers(patch.takeOff.layersMm)}</td>
                      <td>{patch.compactedBy}</td>
                      <td className="num">{patch.takeOff.mixKg.toFixed(0)}</td>
                      <td className="num">
                        {patch.takeOff.crusherRunKg === 0 ? '–' : patch.takeOff.crusherRunKg.toFixed(0)}
                      </td>
                      <td>{patch.takeOff.primeKg > 0 ? 'yes' : 'no'}</td>
                      <td>
                        <span className="yp-tickbox" />
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          </section>
        );
      })}
    </div>
  );
}
