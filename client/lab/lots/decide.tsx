/** The decisions on a lot: the standard next steps in words, and a button for each thing that can be done. */
import { useState } from 'react';
import type { LabLot } from '../../../machines/lab/state.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { Lab } from '../data.ts';
import { personName, whenWords } from '../words.ts';
import { type Decision, decisionsOn } from './decisions.ts';
import { Retest } from './retest.tsx';

export function Decide({ lab, lot }: { readonly lab: Lab; readonly lot: LabLot }) {
  const me = useLive((live) => live.me);
  const people = useLive((live) => live.people);
  const asked = useCommand();
  const [sure, setSure] = useState<Decision | null>(null);
  const decisions = decisionsOn(lot, me);
  const go = (decision: Decision, reason: string) =>
    void asked.ask(() => lab.ask(decision.command(reason)), `${decision.label}: done.`);
  return (
    <section className="card stack" aria-labelledby="decide-head">
      <h3 id="decide-head">Decision</h3>
      {lot.decidedBy !== null && lot.decidedAt !== null && (
        <p>
          {lot.state} by {personName(people, lot.decidedBy)}, {whenWords(lot.decidedAt)}
        </p>
      )}
      {lot.state === 'on hold' && lot.nextSteps.length > 0 && (
        <>
          <p className="label">Usual next steps</p>
          <ol className="next-steps">
            {lot.nextSteps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </>
      )}
      {lot.concession !== null && (
        <p className="lot-state wants">
          <Mark shape="diamond" />
          <span>
            {personName(people, lot.concession.askedBy)} asks for a concession, {whenWords(lot.concession.at)}
            : {lot.concession.reason}
          </span>
        </p>
      )}
      <div className="row">
        {decisions.map((decision) => (
          <button
            key={decision.name}
            type="button"
            className={`button ${decision.weight === 'plain' ? '' : decision.weight}`}
            data-barred={decision.because.length > 0}
            onClick={() => {
              if (decision.because.length > 0) asked.explain(decision.because);
              else if (asked.barred !== null) asked.explain([asked.barred]);
              else setSure(decision);
            }}
          >
            {decision.label}
          </button>
        ))}
      </div>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <Retest lab={lab} lot={lot} />
      {sure !== null && (
        <ConfirmDialog
          title={sure.label}
          words={sure.words}
          go={sure.label}
          danger={sure.weight === 'danger'}
          needsReason={sure.needsReason}
          onClose={() => setSure(null)}
          onGo={(reason) => {
            setSure(null);
            go(sure, reason);
          }}
        />
      )}
    </section>
  );
}
