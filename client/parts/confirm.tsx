/** Asks once more before something dangerous, or for the written reason a command needs. */
import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { Dialog } from './dialog.tsx';

const SHORTEST_REASON = 3;
const LONGEST_REASON = 300;

export function ConfirmDialog({
  title,
  words,
  go,
  danger = false,
  needsReason = false,
  children,
  onGo,
  onClose,
}: {
  readonly title: string;
  readonly words: string;
  readonly go: string;
  readonly danger?: boolean;
  readonly needsReason?: boolean;
  /** What to look at before saying yes. */
  readonly children?: ReactNode;
  readonly onGo: (reason: string) => void;
  readonly onClose: () => void;
}) {
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState(false);
  const id = useId();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const text = reason.trim();
    if (needsReason && text.length < SHORTEST_REASON) {
      setMissing(true);
      document.getElementById(id)?.focus();
      return;
    }
    onGo(text);
  };
  return (
    <Dialog title={title} onClose={onClose} alert={danger}>
      <form className="stack" onSubmit={submit} noValidate>
        <p>{words}</p>
        {children}
        {needsReason && (
          <div className="field">
            <label htmlFor={id}>Reason, kept in the record</label>
            <textarea
              id={id}
              rows={3}
              maxLength={LONGEST_REASON}
              value={reason}
              aria-invalid={missing}
              aria-describedby={`${id}-help`}
              onChange={(event) => setReason(event.target.value)}
            />
            <span id={`${id}-help`} className={missing ? 'warn-words' : 'soft'}>
              {missing ? 'Write at least 3 letters.' : 'What you saw and why you decide so.'}
            </span>
          </div>
        )}
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className={danger ? 'button primary danger' : 'button primary'}>
            {go}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
