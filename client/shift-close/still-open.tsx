/** What the next shift takes over: alarms, inhibits and permits that stand open. */
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';

const QUIET = ['normal', 'suppressed by design'];

/** One line for each thing that stands open now. */
export function useStillOpen(): readonly string[] {
  const alarms = useLive((live) => live.view?.alarms);
  const proofs = useLive((live) => live.view?.maintenance?.proofs);
  const permits = useLive((live) => live.view?.permits);
  return [
    ...(alarms ?? [])
      .filter(({ state }) => !QUIET.includes(state))
      .map(({ text, state }) => `Alarm “${text}”: ${state}`),
    ...(proofs ?? []).flatMap(({ cause, text, inhibit }) =>
      inhibit === null ? [] : [`Inhibit of ${cause} (${text}): ${inhibit.state}`],
    ),
    ...(permits ?? []).map(({ n, where }) => `Hot work permit ${n}: ${where}`),
  ];
}

export function StillOpen() {
  const open = useStillOpen();
  if (open.length === 0) return <p className="soft">No alarm, inhibit or permit stands open.</p>;
  return (
    <ul className="still-open">
      {open.map((words) => (
        <li key={words}>
          <Mark shape="triangle" /> {words}
        </li>
      ))}
    </ul>
  );
}
