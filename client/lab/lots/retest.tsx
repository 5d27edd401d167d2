/** Ordering a retest on the retained portion of a sample; both results are kept. */
import { useId, useState } from 'react';
import { Link } from 'wouter';
import { isDecided } from '../../../machines/lab/lots.ts';
import type { LabLot } from '../../../machines/lab/state.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { Lab } from '../data.ts';
import { isTested } from '../today/agenda.ts';
import { newSheetPath } from '../worksheets/paths.ts';
import { whyNotRole } from './decisions.ts';

export function Retest({ lab, lot }: { readonly lab: Lab; readonly lot: LabLot }) {
  const id = useId();
  const me = useLive((live) => live.me);
  const asked = useCommand();
  const possible = lot.samples.filter(
    (sample) =>
      sample.state === 'logged' &&
      !sample.discarded &&
      (sample.retainedKg ?? 0) > 0 &&
      isTested(lot, sample.n),
  );
  const [chosen, setChosen] = useState<number | null>(null);
  const [sure, setSure] = useState(false);
  const open = lot.retests.filter(({ done }) => !done);
  const sample = possible.find(({ n }) => n === chosen) ?? possible[0];
  if (isDecided(lot) || (possible.length === 0 && open.length === 0)) return null;
  return (
    <div className="stack">
      {open.map((retest) => {
        const of = lot.samples.find(({ n }) => n === retest.sample);
        return (
          <p key={`${retest.sample}/${retest.test}`} className="row">
            Retest ordered: {retest.test} of sample {retest.sample}.
            {of !== undefined && (
              <Link className="button" href={newSheetPath(lot.lot, of)}>
                Its worksheet
              </Link>
            )}
          </p>
        );
      })}
      {sample !== undefined && (
        <div className="row">
          <label htmlFor={id}>Retest on the retained portion of</label>
          <select
            id={id}
            className="narrow"
            value={sample.n}
            onChange={(event) => setChosen(Number(event.target.value))}
          >
            {possible.map(({ n, test }) => (
              <option key={n} value={n}>
                sample {n}, {test}
              </option>
            ))}
          </select>
          <button
            type="button"
            className="button"
            data-barred={whyNotRole(me, 'orderRetest').length > 0}
            onClick={() => {
              const because = whyNotRole(me, 'orderRetest');
              if (because.length > 0) asked.explain(because);
              else setSure(true);
            }}
          >
            Order the retest
          </button>
        </div>
      )}
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {sure && sample !== undefined && (
        <ConfirmDialog
          title={`Retest ${sample.test} of sample ${sample.n}`}
          words="It is made on the retained portion. The first result is kept beside it; the specification says which counts."
          go="Order the retest"
          needsReason
          onClose={() => setSure(false)}
          onGo={(reason) => {
            setSure(false);
            void asked.ask(
              () => lab.ask({ do: 'orderRetest', lot: lot.lot, sample: sample.n, test: sample.test, reason }),
              'Retest ordered.',
            );
          }}
        />
      )}
    </div>
  );
}
