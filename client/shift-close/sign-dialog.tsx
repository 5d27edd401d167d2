/** A person puts their name to a shift: countersigns its seal, or closes it late with the reason it broke off. */
import { type FormEvent, useId, useState } from 'react';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { longDate } from '../replay/dates.ts';
import { sign } from './shifts.ts';

const WORDS = {
  countersignature: {
    title: 'Countersign this shift',
    words:
      'You have looked through the shift and put your name beside that of the one who closed it. This is added to the record and signed with the plant’s key.',
    label: 'Remark, kept in the record (may stay empty)',
    go: 'Countersign',
    done: 'Countersigned.',
    least: 0,
  },
  seal: {
    title: 'Close this shift late',
    words:
      'The shift broke off and nobody closed it. Its record is sealed as it stands, under your name, and says that it was closed late.',
    label: 'How it broke off, kept in the record',
    go: 'Close and seal',
    done: 'Closed late and sealed.',
    least: 3,
  },
} as const;

export function SignDialog({
  row,
  what,
  onClose,
}: {
  readonly row: {
    readonly shift: number;
    readonly name: string;
    readonly date: string;
    readonly entries: number;
  };
  readonly what: keyof typeof WORDS;
  readonly onClose: (done: boolean) => void;
}) {
  const me = useLive((live) => live.me);
  const asked = useCommand();
  const [remark, setRemark] = useState('');
  const id = useId();
  const { title, words, label, go, done, least } = WORDS[what];
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const text = remark.trim();
    if (me === null) asked.explain(['Say who you are first: choose a person at this console.']);
    else if (text.length < least) asked.explain([`Write at least ${least} letters.`]);
    else if (await asked.ask(() => sign(row.shift, what, me.id, text), done)) onClose(true);
  };
  return (
    <Dialog title={title} onClose={() => onClose(false)}>
      <form className="stack" onSubmit={submit} noValidate>
        <p>
          <strong>{row.name}</strong>, {longDate(row.date)},{' '}
          <span className="num">{row.entries.toLocaleString('en-GB')} entries</span>. {words}
        </p>
        <div className="field">
          <label htmlFor={id}>{label}</label>
          <textarea
            id={id}
            rows={3}
            maxLength={1000}
            value={remark}
            onChange={(event) => setRemark(event.target.value)}
          />
        </div>
        <Refusal because={asked.refusal} onClose={asked.clear} />
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={() => onClose(false)}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={asked.waiting}>
            {go}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
