/** Reconciliation: each dip and count against the books of its period, and what remains without explanation. */

import type { MaterialsView } from '../../../machines/yard/stock/views/materials.ts';
import { Mark } from '../../parts/mark.tsx';
import { PersonName } from '../../parts/person-name.tsx';
import { Scroll } from '../stock/parts.tsx';
import { difference, mass, when } from '../stock/words.ts';
import { storeTitle } from './names.ts';

export function MeasurementsPart({ materials }: { readonly materials: MaterialsView }) {
  const material = (id: string) => materials.stores.find((store) => store.id === id)?.material ?? '';
  return (
    <section className="card stack" aria-label="Dips and counts against the books">
      <h2>Dips and counts against the books</h2>
      {materials.measurements.length === 0 ? (
        <p className="soft">Nothing has been dipped or counted yet.</p>
      ) : (
        <Scroll label="Table of dips and counts">
          <table className="sk-table">
            <thead>
              <tr>
                <th scope="col">When, by whom</th>
                <th scope="col">Store</th>
                <th scope="col" className="num">
                  Opened with
                </th>
                <th scope="col" className="num">
                  Came in
                </th>
                <th scope="col" className="num">
                  Weighed out
                </th>
                <th scope="col" className="num">
                  Books
                </th>
                <th scope="col" className="num">
                  Measured
                </th>
                <th scope="col" className="num">
                  Unexplained
                </th>
                <th scope="col">Limit</th>
              </tr>
            </thead>
            <tbody>
              {materials.measurements.map((one) => {
                const beyond = Math.abs(one.differenceGrams) > one.limitGrams;
                return (
                  <tr key={`${one.at}${one.store}${one.measuredGrams}`}>
                    <th scope="row">
                      {when(one.at)}{' '}
                      <span className="soft">
                        <PersonName id={one.by.person} />
                      </span>
                    </th>
                    <td>
                      {storeTitle(one.store, material(one.store))} <span className="soft">{one.how}</span>
                    </td>
                    <td className="num">{mass(one.period.openGrams / 1000)}</td>
                    <td className="num">{mass(one.period.inGrams / 1000)}</td>
                    <td className="num">{mass(one.period.outGrams / 1000)}</td>
                    <td className="num">{mass(one.bookGrams / 1000)}</td>
                    <td className="num">{mass(one.measuredGrams / 1000)}</td>
                    <td className={beyond ? 'num sk-warn' : 'num'}>
                      {difference(one.differenceGrams / 1000)}
                    </td>
                    <td>
                      <span className={beyond ? 'sk-state sk-warn' : 'sk-state'}>
                        <Mark shape={beyond ? 'triangle' : 'check'} />
                        {beyond ? 'beyond' : 'within'} {mass(one.limitGrams / 1000)}
                      </span>
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </Scroll>
      )}
    </section>
  );
}
