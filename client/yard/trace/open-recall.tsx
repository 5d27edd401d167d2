/** Opens a recall of what has been traced: the reason goes into the record, the list is then worked through. */
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Traced } from '../../../machines/yard/trace/traced.types.ts';
import { plural } from '../../format/format.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { useRecalls } from './use-recalls.ts';
import { massWords } from './words.ts';

export function OpenRecall({ traced, onClose }: { readonly traced: Traced; readonly onClose: () => void }) {
  const book = useRecalls();
  const [, go] = useLocation();
  const [reason, setReason] = useState('');
  const no = book.whyNot('openRecall');
  const { patches, affectedPatchGrams, left, from, words } = traced;
  const open = async (): Promise<void> => {
    if (await book.put({ do: 'openRecall', from, words, reason }, 'Recall opened.'))
      go('/yard/trace/recalls');
  };
  return (
    <Dialog title="Open a recall" onClose={onClose}>
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void open();
        }}
      >
        <p>
          {words}: {plural(patches.length, 'patch', 'patches')} with {massWords(affectedPatchGrams)} of mix,
          and {plural(left.length, 'other place', 'other places')} where some of it lies. Mix of these lots in
          a bay: put the lots on hold in the lab before anything more leaves.
        </p>
        <label className="field">
          <span>Reason, kept in the record</span>
          <textarea
            rows={3}
            maxLength={400}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </label>
        {no !== null && <p className="soft">{no}</p>}
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={book.asked.waiting}>
            Open the recall
          </button>
        </div>
      </form>
    </Dialog>
  );
}
