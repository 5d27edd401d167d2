/** Puts an alarm aside for some minutes, with a written reason. */
import { type FormEvent, useId, useState } from 'react';
import type { AlarmView } from '../../machines/line/view.types.ts';
import { Dialog } from '../parts/dialog.tsx';

const CHOICES_MIN = [5, 15, 30, 60, 120] as const;

export function ShelveDialog({
  alarm,
  onGo,
  onClose,
}: {
  readonly alarm: AlarmView;
  readonly onGo: (minutes: number, reason: string) => void;
  readonly onClose: () => void;
}) {
  const [minutes, setMinutes] = useState(15);
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState(false);
  const id = useId();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (reason.trim().length < 3) {
      setMissing(true);
      document.getElementById(`${id}-r`)?.focus();
    } else onGo(minutes, reason.trim());
  };
  return (
    <Dialog title="Shelve this alarm" onClose={onClose}>
      <form className="stack" onSubmit={submit} noValidate>
        <p>“{alarm.text}” stays quiet for the time you give, then comes back by itself.</p>
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
            rows={3}
            maxLength={300}
            value={reason}
            aria-invalid={missing}
            aria-describedby={`${id}-help`}
            onChange={(event) => setReason(event.target.value)}
          />
          <span id={`${id}-help`} className={missing ? 'warn-words' : 'soft'}>
            {missing ? 'Write at least 3 letters.' : 'Why it may wait.'}
          </span>
        </div>
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary">
            Shelve
          </button>
        </div>
      </form>
    </Dialog>
  );
}
