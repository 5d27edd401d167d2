/** Proof tests of all causes with due dates. */
import { useState } from 'react';
import type { ProofView } from '../../machines/line/view.types.ts';
import { plural } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, type Shape } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { GROUPS, idsOf } from './causes.ts';
import { NO_UPKEEP } from './empty.ts';
import { ProveDialog } from './ProveDialog.tsx';
import { useGive } from './use-give.ts';

const SHAPE: { readonly [S in ProofView['standing']]: Shape } = {
  proved: 'dot',
  'due soon': 'ring',
  overdue: 'diamond',
  failed: 'triangle',
  'no record': 'ring',
};
const URGENT: readonly ProofView['standing'][] = ['failed', 'overdue', 'no record', 'due soon', 'proved'];

/** Trips before permissives before the rest, as on the other parts of the page. */
const ORDER = GROUPS.flatMap(({ prefix }) => idsOf(prefix) as readonly string[]);
const placeOf = (proof: ProofView): number => ORDER.indexOf(proof.cause);

const byUrgency = (a: ProofView, b: ProofView): number =>
  URGENT.indexOf(a.standing) - URGENT.indexOf(b.standing) || placeOf(a) - placeOf(b);

export function ProofTests() {
  const { proofs, overdue } = useLive((live) => live.view?.maintenance ?? NO_UPKEEP);
  const [proving, setProving] = useState<string | null>(null);
  const giving = useGive();
  const proved = proofs.find((proof) => proof.cause === proving) ?? null;
  const open = (cause: string) => {
    const because = giving.against('proveCause');
    if (because.length > 0) giving.explain(because);
    else setProving(cause);
  };
  return (
    <section className="stack" aria-labelledby="proof-title">
      <div className="lot-head">
        <h2 id="proof-title">Proof tests</h2>
        <p className="soft">
          {overdue === 0 ? 'None is overdue.' : `${plural(overdue, 'test is', 'tests are')} overdue.`} A
          safeguard nobody tests is a hope, not a safeguard.
        </p>
      </div>
      <Refusal because={giving.refusal} onClose={giving.clear} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
      <section className="card sheets" aria-label="Proof tests by cause" tabIndex={0}>
        <table className="proofs">
          <thead>
            <tr>
              <th scope="col">Cause</th>
              <th scope="col">Standing</th>
              <th scope="col">Last tested</th>
              <th scope="col">Due on</th>
              <th scope="col">Every</th>
              <th scope="col">Test</th>
            </tr>
          </thead>
          <tbody>
            {[...proofs].sort(byUrgency).map((proof) => (
              <tr key={proof.cause} className={`proof-${proof.standing.replace(' ', '-')}`}>
                <th scope="row">
                  <span className="num">{proof.cause}</span> {proof.text}
                </th>
                <td>
                  <span className="record-sort">
                    <Mark shape={SHAPE[proof.standing]} />
                    {proof.standing}
                  </span>
                </td>
                <td>
                  {proof.last === null ? (
                    <span className="soft">none on record</span>
                  ) : (
                    <>
                      <span className="num">{proof.last.on}</span>, {proof.last.result}
                      <span className="soft proof-by">
                        {[proof.last.by, proof.last.remark].filter((text) => text !== '').join(': ')}
                      </span>
                    </>
                  )}
                </td>
                <td className="num">{proof.dueOn ?? 'at once'}</td>
                <td className="num">{proof.everyDays} days</td>
                <td>
                  <button
                    type="button"
                    className="button"
                    aria-label={`Record a proof test of ${proof.cause}`}
                    data-barred={giving.against('proveCause').length > 0}
                    onClick={() => open(proof.cause)}
                  >
                    Record…
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {proved !== null && <ProveDialog proof={proved} onClose={() => setProving(null)} />}
    </section>
  );
}
