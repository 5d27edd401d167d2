/** Inhibits asked for and in force: who, why, how long still; a second person confirms, anyone of the crew lifts. */
import { useState } from 'react';
import type { ProofView } from '../../machines/line/view.types.ts';
import { formatCountdown } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { NO_UPKEEP } from './empty.ts';
import { InhibitDialog } from './InhibitDialog.tsx';
import { useGive } from './use-give.ts';

function Inhibit({ proof, atMs }: { readonly proof: ProofView; readonly atMs: number }) {
  const giving = useGive();
  const { inhibit } = proof;
  if (inhibit === null) return null;
  const inForce = inhibit.untilMs !== null;
  return (
    <li className="inhibit">
      <p>
        <Mark shape={inForce ? 'triangle' : 'ring'} /> <strong>{proof.cause}</strong> {proof.text}
      </p>
      <p>
        {inhibit.untilMs === null
          ? `${inhibit.by} asked for ${inhibit.minutes} minutes: ${inhibit.reason}. It waits for a second person.`
          : `Inhibited by ${inhibit.by}, confirmed by ${inhibit.confirmedBy}: ${inhibit.reason}. Ends by itself in ${formatCountdown((inhibit.untilMs - atMs) / 1000)}.`}
      </p>
      <Refusal because={giving.refusal} onClose={giving.clear} />
      <div className="row">
        {!inForce && (
          <button
            type="button"
            className="button primary"
            data-barred={giving.against('confirmInhibit').length > 0}
            onClick={() =>
              void giving.give(
                { do: 'confirmInhibit', cause: proof.cause },
                `${proof.cause} is inhibited for ${inhibit.minutes} minutes.`,
              )
            }
          >
            Confirm as the second person
          </button>
        )}
        <button
          type="button"
          className="button"
          data-barred={giving.against('liftInhibit').length > 0}
          onClick={() =>
            void giving.give({ do: 'liftInhibit', cause: proof.cause }, `${proof.cause} is in force again.`)
          }
        >
          {inForce ? 'End it now' : 'Withdraw'}
        </button>
      </div>
    </li>
  );
}

function Asked({ proofs }: { readonly proofs: readonly ProofView[] }) {
  const atMs = useLive((live) => live.view?.shift.atMs ?? 0);
  const asked = proofs.filter((proof) => proof.inhibit !== null);
  if (asked.length === 0) return <p className="soft">Nothing is inhibited.</p>;
  return (
    <ul className="stack">
      {asked.map((proof) => (
        <Inhibit key={proof.cause} proof={proof} atMs={atMs} />
      ))}
    </ul>
  );
}

export function Inhibits() {
  const { proofs } = useLive((live) => live.view?.maintenance ?? NO_UPKEEP);
  const [asking, setAsking] = useState(false);
  const giving = useGive();
  const barredBy = giving.against('inhibitCause');
  return (
    <section className="card stack" aria-labelledby="inhibits-title">
      <h2 id="inhibits-title">Inhibits for testing</h2>
      <Asked proofs={proofs} />
      <Refusal because={giving.refusal} onClose={giving.clear} />
      <button
        type="button"
        className="button"
        data-barred={barredBy.length > 0}
        onClick={() => (barredBy.length > 0 ? giving.explain(barredBy) : setAsking(true))}
      >
        Ask for an inhibit…
      </button>
      {asking && <InhibitDialog proofs={proofs} onClose={() => setAsking(false)} />}
    </section>
  );
}
