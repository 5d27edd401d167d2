/** Records a proof test of one cause: passed or failed, and what was seen. */
import { type FormEvent, useId, useState } from 'react';
import type { ProofView } from '../../machines/line/view.types.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { useGive } from './use-give.ts';

export function ProveDialog({ proof, onClose }: { readonly proof: ProofView; readonly onClose: () => void }) {
  const giving = useGive();
  const [result, setResult] = useState<'passed' | 'failed' | null>(null);
  const [remark, setRemark] = useState('');
  const [missing, setMissing] = useState('');
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (result === null) setMissing('Say whether it passed.');
    else if (result === 'failed' && remark.trim().length < 3)
      setMissing('Write what failed, in at least 3 letters.');
    else if (
      await giving.give(
        { do: 'proveCause', cause: proof.cause, result, remark: remark.trim() },
        `Proof test of ${proof.cause} recorded.`,
      )
    )
      onClose();
  };
  return (
    <Dialog title={`Proof test of ${proof.cause}`} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <p>{proof.text}.</p>
        <p className="soft">
          Bring the cause about at the instrument itself, with the plant at rest and nobody at the mixer; see
          that every element it acts on does what the matrix says. Never test with cutback in the pug mill.
        </p>
        <fieldset className="field">
          <legend className="field-label">Result</legend>
          <div className="row">
            {(['passed', 'failed'] as const).map((each) => (
              <button
                key={each}
                type="button"
                className="button"
                aria-pressed={result === each}
                onClick={() => {
                  setResult(each);
                  setMissing('');
                }}
              >
                {each === 'passed' ? 'Passed' : 'Failed'}
              </button>
            ))}
          </div>
        </fieldset>
        <div className="field">
          <label htmlFor={id}>Remark, kept in the record</label>
          <textarea
            id={id}
            rows={3}
            maxLength={300}
            value={remark}
            aria-describedby={`${id}-help`}
            onChange={(event) => setRemark(event.target.value)}
          />
          <span id={`${id}-help`} className={missing === '' ? 'soft' : 'warn-words'}>
            {missing === '' ? 'How it was tested and what was seen.' : missing}
          </span>
        </div>
        <Refusal because={giving.refusal} onClose={giving.clear} />
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={giving.waiting}>
            Record the test
          </button>
        </div>
      </form>
    </Dialog>
  );
}
