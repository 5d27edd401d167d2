/** The shifts on record with what can be done with each: replay it, or take its export away. */
import { useCallback, useEffect, useState } from 'react';
import { Link } from 'wouter';
import { plural } from '../format/format.ts';
import { SignShift } from '../shift-close/sign-shift.tsx';
import { longDate } from './dates.ts';
import './shift-list.css';
import { exportPath, fetchShifts, type ShiftListed } from './shifts.ts';

type Shifts =
  | { readonly is: 'coming' }
  | { readonly is: 'here'; readonly list: readonly ShiftListed[] }
  | { readonly is: 'not'; readonly why: string };

const wordsOf = (shift: ShiftListed): string => {
  const state = shift.sealed ? 'sealed' : shift.endedWall === null ? 'still open' : 'ended, not sealed';
  return `${plural(shift.batches, 'batch', 'batches')}, ${plural(shift.lots, 'lot')}, ${shift.entries.toLocaleString('en-GB')} entries · ${state}`;
};

export function ShiftList() {
  const [shifts, setShifts] = useState<Shifts>({ is: 'coming' });
  const load = useCallback(() => {
    fetchShifts().then(
      (list) => setShifts({ is: 'here', list }),
      (error: unknown) =>
        setShifts({ is: 'not', why: error instanceof Error ? error.message : String(error) }),
    );
  }, []);
  useEffect(load, [load]);
  return (
    <section className="card stack shift-list" aria-labelledby="shift-list-title">
      <h2 id="shift-list-title">Shifts</h2>
      {shifts.is === 'coming' && <p className="soft">Looking through the record…</p>}
      {shifts.is === 'not' && (
        <div className="stack" role="alert">
          <p>The shifts cannot be listed just now. {shifts.why}</p>
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
              <Link className="button" href={`/replay?shift=${shift.shift}`}>
                Replay
                <span className="hidden-words">
                  {' '}
                  {shift.name}, {shift.date}
                </span>
              </Link>
              <SignShift
                row={shift}
                running={shift.endedWall === null && shifts.list.every((other) => other.shift <= shift.shift)}
                onDone={load}
              />
              <a className="button" href={exportPath(shift.shift)} download>
                Download export
                <span className="hidden-words">
                  {' '}
                  of {shift.name}, {shift.date}
                </span>
              </a>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
