/** Entries of the record as lines: when, what sort, what, who, number. */
import type { ReactNode } from 'react';
import { shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import type { RecordLine } from './entries.ts';
import { SORT_SHAPE, SORT_WORD } from './sorts.ts';

export function EntryTable({
  lines,
  startsAt,
  label,
  children,
}: {
  readonly lines: readonly RecordLine[];
  readonly startsAt: string;
  readonly label: string;
  /** Said above the table. */
  readonly children?: ReactNode;
}) {
  const people = useLive((live) => live.people);
  const nameOf = (id: string) => people.find((person) => person.id === id)?.name ?? id;
  return (
    <section className="card record-box" aria-label={label}>
      {children}
      <table className="record">
        <thead>
          <tr>
            <th scope="col">Time</th>
            <th scope="col">What</th>
            <th scope="col">Entry</th>
            <th scope="col">Who</th>
            <th scope="col">No.</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.seq} className={`entry-${line.sort}`}>
              <td className="num">{shiftClock(startsAt, line.atMs)}</td>
              <td>
                <span className="record-sort">
                  <Mark shape={SORT_SHAPE[line.sort]} />
                  {SORT_WORD[line.sort]}
                </span>
              </td>
              <td className="record-text">{line.text}</td>
              <td className="record-who">{nameOf(line.by)}</td>
              <td className="num soft">{line.seq}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
