/** Hours of one day of the plan, with a reason. */
import { type FormEvent, useId, useState } from 'react';
import { weekdayOf } from '../../../machines/yard/patches/schedule/days.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { PatchesHere } from '../patches/use-patches.ts';
import { dayWords } from '../patches/words.ts';

export function HoursDialog({
  date,
  hours,
  usual,
  book,
  onClose,
}: {
  readonly date: string;
  readonly hours: number;
  readonly usual: readonly number[];
  readonly book: PatchesHere;
  readonly onClose: () => void;
}) {
  const [text, setText] = useState(String(hours));
  const [reason, setReason] = useState('');
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const value = text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'));
    if (!(value >= 0 && value <= 14))
      return book.asked.explain(['Write hours from 0 to 14; 0 is a day off.']);
    if (await book.put({ do: 'setHours', date, hours: value, reason }, 'The hours are set.')) onClose();
  };
  return (
    <Dialog title={`Hours on ${dayWords(date)}`} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <div className="field">
          <label htmlFor={`${id}-hours`}>Hours of work; 0 is a day off</label>
          <input
            id={`${id}-hours`}
            type="text"
            inputMode="decimal"
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
          <span className="soft">Usual on this day of the week: {usual[weekdayOf(date)] ?? 0} h.</span>
        </div>
        <div className="field">
          <label htmlFor={`${id}-why`}>Reason, kept in the record</label>
          <input
            id={`${id}-why`}
            type="text"
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={book.asked.waiting}>
            Set the hours
          </button>
        </div>
      </form>
    </Dialog>
  );
}
