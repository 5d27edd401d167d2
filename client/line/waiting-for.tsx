/** What the present step waits for, line by line. */
import { memo } from 'react';
import type { WaitLine } from '../../machines/line/view.types.ts';
import { keepUnits } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, STANDING_SHAPE, STANDING_WORDS } from '../parts/mark.tsx';

const NONE: readonly WaitLine[] = [];
/** A batch that has ended waits for nothing, whatever its step was. */
const OVER: ReadonlySet<string> = new Set(['stopping', 'stopped', 'aborting', 'aborted']);

const Line = memo(function Line({ line }: { readonly line: WaitLine }) {
  return (
    <li className={`check-line ${line.standing}`}>
      <Mark shape={STANDING_SHAPE[line.standing]} />
      <span className="check-text">
        {keepUnits(line.text)}
        <span className="hidden-words">, {STANDING_WORDS[line.standing]}</span>
      </span>
      <span className="check-value num">{line.wanted}</span>
    </li>
  );
});

export function WaitingFor() {
  const lines = useLive((live) => live.view?.now.waitingFor ?? NONE);
  const over = useLive((live) => OVER.has(live.view?.now.procedure ?? ''));
  if (lines.length === 0 || over) return null;
  return (
    <div className="waiting">
      <h2 className="label">Waiting for</h2>
      <ul>
        {lines.map((line) => (
          <Line key={line.id} line={line} />
        ))}
      </ul>
    </div>
  );
}
