/** Where the batch is among its steps. */
import type { NowView } from '../../machines/line/view.types.ts';
import { useLive } from '../live/store.ts';

const NONE: NowView['steps'] = [];

export function Steps() {
  const steps = useLive((live) => live.view?.now.steps ?? NONE);
  if (steps.length === 0) return null;
  return (
    <div className="steps">
      <ol aria-label="Steps">
        {steps.map((step) => (
          <li
            key={step.name}
            title={step.name}
            className={step.state}
            aria-current={step.state === 'now' ? 'step' : undefined}
          >
            <span className="hidden-words">
              {step.name}
              {step.state === 'done' ? ', done' : ''}
            </span>
          </li>
        ))}
      </ol>
    </div>
  );
}
