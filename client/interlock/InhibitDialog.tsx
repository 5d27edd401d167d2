/** Asks to take one cause out of force for testing; the line refuses what the table does not allow. */
import { type FormEvent, useId, useState } from 'react';
import type { ProofView } from '../../machines/line/view.types.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { useGive } from './use-give.ts';

const CHOICES_MIN = [5, 10, 15, 30] as const;

export function InhibitDialog({
  proofs,
  onClose,
}: {
  readonly proofs: readonly ProofView[];
  readonly onClose: () => void;
}) {
  const giving = useGive();
  const allowed = proofs.filter((proof) => proof.mayInhibit);
  const never = proofs.filter((proof) => !proof.mayInhibit);
  const [cause, setCause] = useState(allowed[0]?.cause ?? never[0]?.cause ?? '');
  const [minutes, setMinutes] = useState<number>(10);
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState(false);
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (reason.trim().length < 3) {
      setMissing(true);
      document.getElementById(`${id}-r`)?.focus();
      return;
    }
    const done = await giving.give(
      { do: 'inhibitCause', cause, minutes, reason: reason.trim() },
      `Asked to inhibit ${cause}. A second person must confirm it.`,
    );
    if (done) onClose();
  };
  return (
    <Dialog title="Ask for an inhibit" onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <p className="hazard">
          <Mark shape="triangle" />
          <span>
            An inhibit takes a safeguard away. It is for a test you are standing beside, never to get a batch
            finished. What keeps flame and cutback apart is never inhibited, whoever asks.
          </span>
        </p>
        <div className="field">
          <label htmlFor={`${id}-c`}>Cause</label>
          <select id={`${id}-c`} value={cause} onChange={(event) => setCause(event.target.value)}>
            <optgroup label="May be inhibited for testing">
              {allowed.map((proof) => (
                <option key={proof.cause} value={proof.cause}>
                  {proof.cause} {proof.text}
                </option>
              ))}
            </optgroup>
            <optgroup label="Never inhibited">
              {never.map((proof) => (
                <option key={proof.cause} value={proof.cause}>
                  {proof.cause} {proof.text}
                </option>
              ))}
            </optgroup>
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-m`}>For how long</label>
          <select id={`${id}-m`} value={minutes} onChange={(event) => setMinutes(Number(event.target.value))}>
            {CHOICES_MIN.map((choice) => (
              <option key={choice} value={choice}>
                {choice} minutes
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-r`}>Reason, kept in the record</label>
          <textarea
            id={`${id}-r`}
            rows={2}
            maxLength={300}
            value={reason}
            aria-invalid={missing}
            aria-describedby={`${id}-help`}
            onChange={(event) => setReason(event.target.value)}
          />
          <span id={`${id}-help`} className={missing ? 'warn-words' : 'soft'}>
            {missing ? 'Write at least 3 letters.' : 'What is tested and who stands beside it.'}
          </span>
        </div>
        <Refusal because={giving.refusal} onClose={giving.clear} />
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={giving.waiting}>
            Ask for it
          </button>
        </div>
      </form>
    </Dialog>
  );
}
