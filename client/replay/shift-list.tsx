/** The shifts on record with what can be done with each: replay it, or take its export away. */
import { useCallback, useEffect, useState } from 'react';
import { Link } from 'wouter';
import { plural } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { troubleOf } from '../live/trouble.ts';
import { SignShift } from '../shift-close/sign-shift.tsx';
import { longDate } from './dates.ts';
import './shift-list.css';
import { exportPath, fetchShifts, type ShiftListed } from './shifts.ts';

/** A shift's seal is there by then, also after a long one. */
const SEALED_BY_MS = 2000;

type Shifts =
  | { readonly is: 'coming' }
  | { readonly is: 'here'; readonly list: readonly ShiftListed[] }
  | { readonly is: 'not'; readonly why: string };

const wordsOf = (shift: ShiftListed): string => {
  const state = shift.sealed
    ? (shift.seal?.countersigned.length ?? 0) > 0
      ? 'sealed, countersigned'
      : 'sealed'
    : shift.running
      ? 'running now'
      : shift.endedWall === null
        ? 'broken off, not sealed'
        : 'ended, not sealed';
  return `${plural(shift.batches, 'batch', 'batches')}, ${plural(shift.lots, 'lot')}, ${shift.entries.toLocaleString('en-GB')} entries · ${state}`;
};

function Ways({ shift }: { readonly shift: ShiftListed }) {
  if (typeof shift.archivedIn === 'string')
    return <span className="soft">moved to {shift.archivedIn}: open that file</span>;
  const which = `${shift.name}, ${shift.date}`;
  return (
    <>
      <Link className="button" href={`/replay?shift=${shift.shift}`}>
        Replay
        <span className="hidden-words"> {which}</span>
      </Link>
      <a className="button" href={exportPath(shift.shift)} download>
        Download export
        <span className="hidden-words"> of {which}</span>
      </a>
    </>
  );
}

export function ShiftList() {
  const [shifts, setShifts] = useState<Shifts>({ is: 'coming' });
  const load = useCallback(() => {
    fetchShifts().then(
      (list) => setShifts({ is: 'here', list }),
      (error: unknown) => setShifts({ is: 'not', why: troubleOf(error) }),
    );
  }, []);
  // A shift that ends or begins at another console is told here too; its seal follows within moments.
  const stands = useLive((live) => `${live.view?.shift.date ?? ''} ${live.view?.shift.ended ?? ''}`);
  useEffect(() => {
    load();
    if (stands === ' ') return;
    const again = setTimeout(load, SEALED_BY_MS);
    return () => clearTimeout(again);
  }, [load, stands]);
  return (
    <section className="card stack shift-list" aria-labelledby="shift-list-title">
      <h2 id="shift-list-title">Shifts</h2>
      {shifts.is === 'coming' && <p className="soft">Looking through the record…</p>}
      {shifts.is === 'not' && (
        <div className="stack" role="alert">
          <p>The shifts cannot be listed just now. {shifts.why.replace(/\.$/, '')}.</p>
          <button type="button" className="button" onClick={load}>
            Try again
          </button>
        </div>
      )}
      {shifts.is === 'here' && shifts.list.length === 0 && <p className="soft">No shift is on record yet.</p>}
      {shifts.is === 'here' && (
        <ul>
          {shifts.list.map((shift) => (
            <li key={shift.shift}>
              <span className="shift-list-words">
                <strong>{shift.name}</strong> {longDate(shift.date)}
                <span className="soft num">{wordsOf(shift)}</span>
              </span>
              <Ways shift={shift} />
              {typeof shift.archivedIn !== 'string' && (
                <SignShift row={shift} running={shift.running === true} onDone={load} />
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
