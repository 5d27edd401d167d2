/** Who sits at this console: shown always, changed in a dialog. */
import { useState } from 'react';
import { iAm } from '../live/line.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';

export function Who() {
  const me = useLive((live) => live.me);
  const people = useLive((live) => live.people);
  const [open, setOpen] = useState(false);
  const asked = useCommand();
  const choose = async (person: string, name: string) => {
    if (await asked.ask(() => iAm(person), `You are ${name}.`)) setOpen(false);
  };
  return (
    <>
      <button
        type="button"
        className={me === null ? 'button who primary' : 'button who'}
        data-guide="who"
        aria-haspopup="dialog"
        onClick={() => setOpen(true)}
      >
        {me === null ? (
          'Who are you?'
        ) : (
          <span className="who-words">
            <span className="who-name">{me.name}</span>
            <span className="who-role">{me.role}</span>
          </span>
        )}
      </button>
      {open && (
        <Dialog title="Who are you?" onClose={() => setOpen(false)}>
          <div className="stack">
            <p className="soft">
              Everything you do here is recorded under this name. There are no passwords on this computer yet:
              be honest.
            </p>
            <Refusal because={asked.refusal} onClose={asked.clear} />
            {people.length === 0 && <p>The list of people has not come yet.</p>}
            <ul className="people">
              {people.map((person) => (
                <li key={person.id}>
                  <button
                    type="button"
                    className="person"
                    aria-pressed={person.id === me?.id}
                    onClick={() => void choose(person.id, person.name)}
                  >
                    <span>{person.name}</span>
                    <span className="soft">{person.role}</span>
                    {person.id === me?.id && <Mark shape="check" />}
                  </button>
                </li>
              ))}
            </ul>
          </div>
        </Dialog>
      )}
    </>
  );
}
