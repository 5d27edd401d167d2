/** Correcting readings of a worksheet: the same grid, what changes is shown with its old value, and a reason is asked. */
import { type FormEvent, useId, useMemo, useState } from 'react';
import type { LabLot, LabWorksheet } from '../../../machines/lab/state.ts';
import { SHEETS } from '../../../machines/lab/worksheets/index.ts';
import { useCommand } from '../../live/use-command.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { contextOf, specOf } from '../book-like.ts';
import type { Lab } from '../data.ts';
import type { Readings } from './drafts.ts';
import { SheetForm } from './sheet-form.tsx';
import { useSheet } from './use-sheet.ts';

const asText = (readings: LabWorksheet['readings']): Readings =>
  Object.fromEntries(
    Object.entries(readings).map(([key, value]) => [
      key,
      value === null || value === undefined ? '' : String(value),
    ]),
  );

export function Correct({
  lab,
  worksheet,
  lot,
  onClose,
}: {
  readonly lab: Lab;
  readonly worksheet: LabWorksheet;
  readonly lot: LabLot | null;
  readonly onClose: () => void;
}) {
  const id = useId();
  const sheet = SHEETS[worksheet.sheet];
  const context = useMemo(
    () => contextOf(lab.view, lot, worksheet.sample, lab.at),
    [lab.view, lot, worksheet.sample, lab.at],
  );
  const first = useMemo(() => asText(worksheet.readings), [worksheet.readings]);
  const state = useSheet(sheet, context, null, first);
  const [reason, setReason] = useState('');
  const asked = useCommand();
  const changes = Object.entries({ ...first, ...state.readings }).flatMap(([key]) => {
    const now = (state.whole[key] ?? state.readings[key] ?? '').trim();
    return now === (first[key] ?? '') ? [] : [{ key, was: first[key] ?? '', now }];
  });

  const correct = async (event: FormEvent | null) => {
    event?.preventDefault();
    state.showAll();
    if (changes.length === 0) return asked.explain(['Nothing has been changed yet.']);
    if (!state.worked.ok)
      return asked.explain(state.worked.because.slice(0, 4).map(({ message }) => message));
    if (reason.trim().length < 3) {
      document.getElementById(id)?.focus();
      return asked.explain(['Say why it is corrected, in at least 3 letters.']);
    }
    const done = await asked.ask(
      () =>
        lab.ask({
          do: 'correctWorksheet',
          worksheet: worksheet.id,
          changes: Object.fromEntries(changes.map(({ key, now }) => [key, now === '' ? null : now])),
          reason: reason.trim(),
        }),
      'Corrected; the old value is kept.',
    );
    if (done) onClose();
  };

  return (
    <form className="stack" onSubmit={(event) => void correct(event)} noValidate>
      <SheetForm
        sheet={sheet}
        spec={specOf(lab.view, lot)}
        state={state}
        nowAt={lab.at}
        onEnd={() => document.getElementById(id)?.focus()}
      >
        <ul className="stack" aria-label="What changes">
          {changes.map(({ key, was, now }) => (
            <li key={key} className="num">
              {state.fields.find((field) => field.key === key)?.label ?? key}:{' '}
              <del>{was === '' ? 'empty' : was}</del> {now === '' ? 'empty' : now}
            </li>
          ))}
        </ul>
        <div className="field">
          <label htmlFor={id}>Reason, kept in the record</label>
          <input
            id={id}
            type="text"
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <div className="row">
          <button type="submit" className="button primary" aria-busy={asked.waiting}>
            Correct it
          </button>
          <button type="button" className="button" onClick={onClose}>
            Leave it as it is
          </button>
        </div>
        <Refusal because={asked.refusal} onClose={asked.clear} />
      </SheetForm>
    </form>
  );
}
