/** Where the batch is among its steps. */
import type { NowView } from '../../machines/line/view.types.ts';
import { useLive } from '../live/store.ts';

const NONE: NowView['steps'] = [];

export function Steps() {
  const steps = useLive((live) => live.view?.now.steps ?? NONE);
  if (steps.length === 0) return null;
  const at = steps.findIndex((step) => step.state === 'now');
  const next = steps[at + 1];
  return (
    <div className="steps">
      <ol aria-label="Steps">
        {steps.map((step) => (
          <li key={step.name} className={step.state} aria-current={step.state === 'now' ? 'step' : undefined}>
            <span className="hidden-words">
              {step.name}
              {step.state === 'done' ? ', done' : ''}
            </span>
          </li>
        ))}
      </ol>
      <p className="steps-words" aria-hidden="true">
        <strong>{steps[at]?.name ?? ''}</strong>
        {next !== undefined && <span className="soft">then {next.name.toLowerCase()}</span>}
      </p>
    </div>
  );
}
