/** One hole measured anew, with a reason; what it takes follows at once. */
import { type FormEvent, useId, useState } from 'react';
import type { Basis } from '../../../machines/yard/patches/basis.ts';
import type { Measured, Patch } from '../../../machines/yard/patches/patch.types.ts';
import { takeOffOf } from '../../../machines/yard/patches/take-off.ts';
import { troubleWith } from '../../../machines/yard/patches/trouble.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { HoleFields, holeOf, textOf } from './hole-fields.tsx';
import type { PatchesHere } from './use-patches.ts';
import { layers, mass } from './words.ts';

export function PatchDialog({
  list,
  patch,
  basis,
  book,
  onClose,
}: {
  readonly list: string;
  readonly patch: Patch;
  readonly basis: Basis;
  readonly book: PatchesHere;
  readonly onClose: () => void;
}) {
  const [text, setText] = useState(textOf(patch));
  const [reason, setReason] = useState('');
  const id = useId();
  const now: Measured = holeOf(text);
  const wrong = troubleWith(now);
  const found = wrong.length === 0 ? takeOffOf(now, basis) : null;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (wrong.length > 0) return book.asked.explain(wrong.map(({ message }) => message));
    const done = await book.put(
      { do: 'changePatch', list, row: patch.row, now, reason },
      `Patch ${patch.row} changed.`,
    );
    if (done) onClose();
  };
  return (
    <Dialog title={`Change patch ${patch.row}`} onClose={onClose} wide>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <HoleFields text={text} onChange={setText} />
        <p className={found === null ? 'warn-words' : 'yp-sum num'} role="status">
          {found === null
            ? (wrong[0]?.message ?? '')
            : `Takes ${mass(found.mixKg)} of mix in ${layers(found.layersMm)} mm; it took ${mass(patch.takeOff.mixKg)}.`}
        </p>
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
            Change the patch
          </button>
        </div>
      </form>
    </Dialog>
  );
}
