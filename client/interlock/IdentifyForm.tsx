/** After a doubt: a supervisor says what a tank holds, and how that was found out. */
import { type FormEvent, useId, useState } from 'react';
import type { TankView } from '../../machines/line/view.types.ts';
import { Refusal } from '../parts/refusal.tsx';
import { ProductField } from './Delivery.tsx';
import { useGive } from './use-give.ts';

export function IdentifyForm({ tank }: { readonly tank: TankView['id'] }) {
  const giving = useGive();
  const [product, setProduct] = useState<TankView['id'] | ''>('');
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState('');
  const id = useId();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (product === '') setMissing('Choose what was found in it.');
    else if (reason.trim().length < 3) setMissing('Write how it was found out, in at least 3 letters.');
    else {
      setMissing('');
      void giving
        .give(
          { do: 'identifyTank', tank, product, reason: reason.trim() },
          `The ${tank} tank holds ${product}, says the supervisor.`,
        )
        .then((done) => {
          if (done) setReason('');
        });
    }
  };
  return (
    <details className="figure-table">
      <summary>Identify its contents after a doubt</summary>
      <form className="stack" onSubmit={submit} noValidate>
        <div className="form-row">
          <ProductField label="What was found in it" value={product} onChange={setProduct} />
          <div className="field">
            <label htmlFor={id}>How it was found out</label>
            <input
              id={id}
              type="text"
              maxLength={300}
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          </div>
        </div>
        {missing !== '' && <p className="warn-words">{missing}</p>}
        <Refusal because={giving.refusal} onClose={giving.clear} />
        <button type="submit" className="button" data-barred={giving.against('identifyTank').length > 0}>
          Record what it holds
        </button>
      </form>
    </details>
  );
}
