/** Closing a shift: handover notes, what stands open, the counts; then the line ends and the server seals. */
import { type FormEvent, useId, useState } from 'react';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { CountsTable } from './counts-table.tsx';
import { StillOpen } from './still-open.tsx';

const LONGEST_NOTES = 4000;

export function CloseShiftDialog({ onClose }: { readonly onClose: () => void }) {
  const counts = useLive((live) => live.view?.counts);
  const asked = useCommand();
  const [notes, setNotes] = useState('');
  const [warned, setWarned] = useState(false);
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const text = notes.trim();
    if (text === '' && !warned) {
      setWarned(true);
      document.getElementById(id)?.focus();
      return;
    }
    const command = text === '' ? ({ do: 'endShift' } as const) : ({ do: 'endShift', notes: text } as const);
    if (await asked.send(command, 'Shift ended. Its record is being sealed.')) onClose();
  };
  return (
    <Dialog title="End the shift?" onClose={onClose} wide>
      <form className="close-shift" onSubmit={submit} noValidate>
        <div className="stack">
          <div className="field">
            <label htmlFor={id}>Handover notes for the next shift</label>
            <textarea
              id={id}
              rows={6}
              maxLength={LONGEST_NOTES}
              value={notes}
              aria-describedby={`${id}-help`}
              onChange={(event) => setNotes(event.target.value)}
            />
            <span id={`${id}-help`} className={warned && notes.trim() === '' ? 'warn-words' : 'soft'}>
              {warned && notes.trim() === ''
                ? 'Nothing to hand over? Press “End the shift” once more to close without notes.'
                : 'What the next shift must know: what was mended, what to watch, what is short.'}
            </span>
          </div>
          <h3>Still open</h3>
          <StillOpen />
        </div>
        <div className="stack">
          <h3>Counts</h3>
          {counts === undefined ? (
            <p className="soft">The books are not known at this console.</p>
          ) : (
            <CountsTable counts={counts} />
          )}
          <p className="soft">
            The open lot is closed, short if it is not full, and no batch can be started afterwards. Notes,
            what stands open and the counts go into the record; then the record is sealed and cannot be added
            to.
          </p>
        </div>
        <div className="close-shift-foot">
          <Refusal because={asked.refusal} onClose={asked.clear} />
          <div className="row dialog-actions">
            <button type="button" className="button" onClick={onClose}>
              Back
            </button>
            <button type="submit" className="button primary danger" aria-busy={asked.waiting}>
              End the shift
            </button>
          </div>
        </div>
      </form>
    </Dialog>
  );
}
