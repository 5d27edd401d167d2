/** Reasons a command was not carried out, beside the button that asked for it. */
import { plainDays } from '../format/format.ts';
import { Mark } from './mark.tsx';

export function Refusal({
  because,
  onClose,
}: {
  readonly because: readonly string[] | null;
  readonly onClose: () => void;
}) {
  if (because === null) return null;
  return (
    <div className="refusal" data-refusal>
      <Mark shape="triangle" />
      <div>
        <strong>Not done</strong>
        <ul>
          {because.map((reason) => (
            <li key={reason}>{plainDays(reason)}</li>
          ))}
        </ul>
      </div>
      <button type="button" className="button quiet" onClick={onClose} aria-label="Close these reasons">
        ✕
      </button>
    </div>
  );
}
