/** All recalls, the open ones first. */

import { Link } from 'wouter';
import type { Recall } from '../../../machines/yard/trace/recalls/state.ts';
import { BookWaiting } from '../../parts/book-waiting.tsx';
import { Mark } from '../../parts/mark.tsx';
import { PersonName } from '../../parts/person-name.tsx';
import { useRecalls } from './use-recalls.ts';
import { timeWords } from './words.ts';

const seen = ({ ticks }: Recall): number =>
  Object.values(ticks).filter((own) => own.some(({ back }) => back === null)).length;

export function Recalls() {
  const { view, error, again } = useRecalls();
  if (view === null) return <BookWaiting what="the list of recalls" error={error} onAgain={again} />;
  return (
    <section className="card stack" aria-labelledby="tr-recalls">
      <div className="tr-head">
        <h2 id="tr-recalls">Recalls</h2>
      </div>
      {view.recalls.length === 0 ? (
        <p className="soft">
          No recall has been opened. Trace what was bad, then choose “Recall it” to get the list of patches to
          work through.
        </p>
      ) : (
        <div className="tr-scroll">
          <table className="tr-table">
            <thead>
              <tr>
                <th scope="col">Recall</th>
                <th scope="col">Of</th>
                <th scope="col">Reason</th>
                <th scope="col">Opened</th>
                <th scope="col" className="num">
                  Patches seen to
                </th>
                <th scope="col">State</th>
              </tr>
            </thead>
            <tbody>
              {view.recalls.map((one) => (
                <tr key={one.id}>
                  <td>
                    <Link href={`/yard/trace/recalls/${one.id}`}>{one.id}</Link>
                  </td>
                  <td>{one.words}</td>
                  <td>{one.reason}</td>
                  <td className="num">
                    {timeWords(one.at)} by <PersonName id={one.by} />
                  </td>
                  <td className="num">{seen(one)}</td>
                  <td>
                    {one.closed === null ? (
                      <span className="tr-open">
                        <Mark shape="triangle" /> open
                      </span>
                    ) : (
                      'closed'
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
