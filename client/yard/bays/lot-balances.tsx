/** Each lot against what its batches weighed: loaded, returned, wasted, lying, and what stock-takes found off. */
import { LOT_LIMIT_PCT, type LotBalance } from '../../../machines/yard/stock/views/bays.ts';
import { Mark } from '../../parts/mark.tsx';
import { Scroll } from '../stock/parts.tsx';
import { difference, mass } from '../stock/words.ts';

export function LotBalances({ lots }: { readonly lots: readonly LotBalance[] }) {
  return (
    <section className="card stack" aria-label="Lots against their batches">
      <h2>Lots against their batches</h2>
      {lots.length === 0 ? (
        <p className="soft">No lot has been made yet.</p>
      ) : (
        <Scroll label="Table of lots">
          <table className="sk-table">
            <thead>
              <tr>
                <th scope="col">Lot</th>
                <th scope="col">Lab</th>
                <th scope="col" className="num">
                  Batches weighed
                </th>
                <th scope="col" className="num">
                  Left on loads
                </th>
                <th scope="col" className="num">
                  Came back
                </th>
                <th scope="col" className="num">
                  Wasted
                </th>
                <th scope="col" className="num">
                  Lying
                </th>
                <th scope="col" className="num">
                  Stock-takes
                </th>
                <th scope="col">Within ±{LOT_LIMIT_PCT} %</th>
              </tr>
            </thead>
            <tbody>
              {lots.map((lot) => (
                <tr key={lot.lot}>
                  <th scope="row" className="num">
                    {lot.lot}
                    <span className="soft sk-under">{lot.mixName}</span>
                  </th>
                  <td>{lot.lab}</td>
                  <td className="num">{mass(lot.madeKg)}</td>
                  <td className="num">{mass(lot.loadedKg)}</td>
                  <td className="num">{mass(lot.returnedKg)}</td>
                  <td className="num">{mass(lot.wastedKg)}</td>
                  <td className="num">{mass(lot.lyingKg)}</td>
                  <td className="num">{lot.adjustedKg === 0 ? '–' : difference(lot.adjustedKg)}</td>
                  <td>
                    <span className={lot.within ? 'sk-state' : 'sk-state sk-warn'}>
                      <Mark shape={lot.within ? 'check' : 'triangle'} />
                      {lot.offPct === 0 ? 'agrees' : `${lot.offPct.toFixed(2).replace('-', '−')} %`}
                    </span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
      <p className="soft">
        What a lot delivers must agree with what its batches weighed within {LOT_LIMIT_PCT} % (UFC 3-250-03,
        loads against batch weights).
      </p>
    </section>
  );
}
