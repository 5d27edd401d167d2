/** Another day or another number of batches for an order, with a reason. */
import { type FormEvent, useId, useState } from 'react';
import type { OrderShown } from '../../../machines/yard/patches/view.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { PatchesHere } from './use-patches.ts';
import { mass } from './words.ts';

export function ChangeOrder({
  order,
  book,
  today,
  onClose,
}: {
  readonly order: OrderShown;
  readonly book: PatchesHere;
  readonly today: string;
  readonly onClose: () => void;
}) {
  const [neededBy, setNeededBy] = useState(order.neededBy < today ? today : order.neededBy);
  const [batches, setBatches] = useState(String(Math.max(1, order.batches)));
  const [reason, setReason] = useState('');
  const id = useId();
  const batchKg = order.batches === 0 ? 0 : order.makeKg / order.batches;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const done = await book.put(
      { do: 'changeOrder', order: order.id, neededBy, batches: Number(batches), reason },
      `Order ${order.id} changed.`,
    );
    if (done) onClose();
  };
  return (
    <Dialog title={`Change ${order.id}`} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <p className="soft">The holes of its lists take {mass(order.needNowKg)} now.</p>
        <div className="field">
          <label htmlFor={`${id}-day`}>Needed by</label>
          <input
            id={`${id}-day`}
            type="date"
            min={today}
            value={neededBy}
            onChange={(event) => setNeededBy(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-batches`}>Batches to make in all</label>
          <input
            id={`${id}-batches`}
            type="number"
            inputMode="numeric"
            min={1}
            value={batches}
            onChange={(event) => setBatches(event.target.value)}
          />
          <span className="soft num">
            {batchKg > 0 ? `${mass(Number(batches) * batchKg)} in batches of ${batchKg} kg` : ''}
          </span>
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
            Change the order
          </button>
        </div>
      </form>
    </Dialog>
  );
}
