/** All lots the lab's book holds, newest first: where each stands, what it misses, what fails. */
import { useState } from 'react';
import { Link } from 'wouter';
import { LOT_STATES } from '../../../machines/lab/facts.ts';
import { formatTonnes, keepUnits } from '../../format/format.ts';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { lotsNow } from '../now-words.ts';
import { LabStanding } from '../standing.tsx';
import { LotStateTag } from '../state-tag.tsx';
import { mixName, whenWords } from '../words.ts';

const AT_ONCE = 60;

export function LotsList() {
  const lab = useLab();
  const [state, setState] = useState('');
  const [find, setFind] = useState('');
  const [most, setMost] = useState(AT_ONCE);
  const rows = lab.view.lots.filter(
    (lot) =>
      (state === '' || lot.state === state) &&
      (find === '' ||
        `${lot.lot} ${mixName(lab.view.mixes, lot.mixId, lot.mixVersion)}`
          .toLowerCase()
          .includes(find.trim().toLowerCase())),
  );
  return (
    <LabFrame title="Lab" under={lotsNow(lab.view)}>
      <LabStanding lab={lab}>
        <div className="row lab-filters">
          <label htmlFor="lots-find">Lot or mix</label>
          <input
            id="lots-find"
            className="narrow"
            type="text"
            value={find}
            onChange={(event) => setFind(event.target.value)}
          />
          <label htmlFor="lots-state">State</label>
          <select
            id="lots-state"
            className="narrow"
            value={state}
            onChange={(event) => setState(event.target.value)}
          >
            <option value="">any</option>
            {LOT_STATES.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
          <span className="soft num">
            {rows.length} of {lab.view.lots.length} lots
          </span>
        </div>
        {rows.length === 0 ? (
          <p className="card empty">
            {lab.view.lots.length === 0
              ? 'No lot yet. The first batch on the Line page opens one and draws its samples.'
              : 'No lot is so. Choose another state, or clear what is looked for.'}
          </p>
        ) : (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
          <section className="card lab-table" aria-label="Lots, scrolls sideways" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Lot</th>
                  <th scope="col">State</th>
                  <th scope="col">Mix</th>
                  <th scope="col">Mass</th>
                  <th scope="col">Bay</th>
                  <th scope="col">Opened</th>
                  <th scope="col">What stands against it</th>
                </tr>
              </thead>
              <tbody>
                {rows.slice(0, most).map((lot) => (
                  <tr key={lot.lot}>
                    <th scope="row">
                      <Link className="button num" href={`/lab/lots/${lot.lot}`}>
                        {lot.lot}
                      </Link>
                    </th>
                    <td>
                      <LotStateTag state={lot.state} done={lot.done} />
                    </td>
                    <td>
                      {mixName(lab.view.mixes, lot.mixId, lot.mixVersion)},{' '}
                      <span className="soft num">version {lot.mixVersion}</span>
                    </td>
                    <td className="num">{keepUnits(formatTonnes(lot.grams / 1000))}</td>
                    <td className="num">{lot.bay}</td>
                    <td className="num">{whenWords(lot.openedAt)}</td>
                    <td>
                      {lot.failing.length > 0 && <span className="block wants-words">{lot.failing[0]}</span>}
                      {lot.missing > 0 && (
                        <span className="block soft">
                          {lot.missing === 1 ? '1 thing is missing' : `${lot.missing} things are missing`}
                        </span>
                      )}
                      {lot.failing.length === 0 && lot.missing === 0 && (
                        <span className="soft">
                          {lot.proposal === 'accept' ? 'nothing: accept it' : 'nothing'}
                        </span>
                      )}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
        {rows.length > most && (
          <button type="button" className="button" onClick={() => setMost(most + 200)}>
            Show more lots
          </button>
        )}
      </LabStanding>
    </LabFrame>
  );
}
