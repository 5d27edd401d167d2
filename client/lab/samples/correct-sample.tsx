/** What was logged of a sample put right, with a reason; what stood there before is kept. */
import { type FormEvent, useId, useState } from 'react';
import type { LabSample } from '../../../machines/lab/state.ts';
import { useCommand } from '../../live/use-command.ts';
import { Refusal } from '../../parts/refusal.tsx';
import type { Lab } from '../data.ts';
import { logProblems, numberIn } from './log-check.ts';

export function CorrectSample({
  lab,
  lot,
  sample,
}: {
  readonly lab: Lab;
  readonly lot: string;
  readonly sample: LabSample;
}) {
  const id = useId();
  const [mass, setMass] = useState(String(sample.massKg ?? ''));
  const [container, setContainer] = useState(sample.container ?? '');
  const [retained, setRetained] = useState(String(sample.retainedKg ?? ''));
  const [reason, setReason] = useState('');
  const asked = useCommand();
  const correct = async (event: FormEvent) => {
    event.preventDefault();
    const problems = Object.values(
      logProblems({ massText: mass, container, retainedText: retained, reason }),
    ) as string[];
    const massKg = numberIn(mass);
    const retainedKg = numberIn(retained);
    if (problems.length > 0 || massKg === null || retainedKg === null) return asked.explain(problems);
    const changes = {
      ...(massKg === sample.massKg ? {} : { massKg }),
      ...(container.trim() === sample.container ? {} : { container: container.trim() }),
      ...(retainedKg === sample.retainedKg ? {} : { retainedKg }),
    };
    if (Object.keys(changes).length === 0) return asked.explain(['Nothing has been changed yet.']);
    const done = await asked.ask(
      () => lab.ask({ do: 'correctSample', lot, sample: sample.n, changes, reason: reason.trim() }),
      'Corrected; what stood there before is kept.',
    );
    if (done) setReason('');
  };
  const fields = [
    ['mass', 'Mass taken, kg', mass, setMass],
    ['container', 'Kept in', container, setContainer],
    ['retained', 'Of this kept back, kg', retained, setRetained],
    ['reason', 'Reason, kept in the record', reason, setReason],
  ] as const;
  return (
    <details className="card">
      <summary>Correct what was logged</summary>
      <form className="stack log-form" onSubmit={(event) => void correct(event)} noValidate>
        {fields.map(([key, label, value, set]) => (
          <div key={key} className="entry">
            <label htmlFor={`${id}-${key}`}>{label}</label>
            <span className="entry-box">
              <input
                id={`${id}-${key}`}
                type="text"
                className={key === 'mass' || key === 'retained' ? 'num' : 'words'}
                autoComplete="off"
                maxLength={200}
                value={value}
                onChange={(event) => set(event.target.value)}
              />
            </span>
          </div>
        ))}
        <div className="row">
          <button type="submit" className="button" aria-busy={asked.waiting}>
            Correct it
          </button>
        </div>
        <Refusal because={asked.refusal} onClose={asked.clear} />
      </form>
    </details>
  );
}
