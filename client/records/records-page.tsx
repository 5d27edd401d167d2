/** The newest entries of the record: what was asked, what was refused and why, what happened. */
import { useEffect, useState } from 'react';
import { shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, type Shape } from '../parts/mark.tsx';
import type { Sort } from './entries.ts';
import { useRecord } from './use-record.ts';

const SORTS = [
  { sort: 'all', words: 'All' },
  { sort: 'command', words: 'Commands' },
  { sort: 'refusal', words: 'Refusals' },
  { sort: 'fact', words: 'Facts' },
  { sort: 'note', words: 'Notes' },
] as const;

const SORT_WORD: { readonly [K in Sort]: string } = {
  command: 'asked',
  refusal: 'refused',
  fact: 'happened',
  note: 'note',
};
const SORT_SHAPE: { readonly [K in Sort]: Shape } = {
  command: 'ring',
  refusal: 'triangle',
  fact: 'dot',
  note: 'square',
};

export function RecordsPage() {
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const head = useLive((live) => live.run?.head ?? '');
  const people = useLive((live) => live.people);
  const record = useRecord();
  const [shown, setShown] = useState<(typeof SORTS)[number]['sort']>('all');
  const lines = record.lines?.filter((line) => shown === 'all' || line.sort === shown) ?? [];
  const nothingYet = record.lines !== null && lines.length === 0;
  const { hasEarlier, earlier, trouble } = record;
  // A quiet hour holds readings only: looked through from the newest back until there is something to show.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each answer, empty or not, is a reason to look again
  useEffect(() => {
    if (nothingYet && hasEarlier && trouble === null) earlier();
  }, [record.lines, nothingYet, hasEarlier, trouble, earlier]);
  const nameOf = (id: string) => people.find((person) => person.id === id)?.name ?? id;
  return (
    <div className="page">
      <div className="page-head">
        <h1>Records</h1>
        <p className="soft">
          Nothing here can be changed. Each entry names the one before it by its hash
          {head === '' ? '.' : <span className="num">; the newest is {head.slice(0, 12)}…</span>}
        </p>
      </div>
      <fieldset className="row" aria-label="Which entries are shown">
        {SORTS.map(({ sort, words }) => (
          <button
            key={sort}
            type="button"
            className="button"
            aria-pressed={shown === sort}
            onClick={() => setShown(sort)}
          >
            {words}
          </button>
        ))}
      </fieldset>
      {record.lines === null && record.trouble === null && <p className="card empty">Reading the record…</p>}
      {record.trouble !== null && (
        <div className="card failure" role="alert">
          <h2>The record cannot be read just now</h2>
          <p>{record.trouble}.</p>
          <button type="button" className="button primary" onClick={record.again}>
            Try again
          </button>
        </div>
      )}
      {record.lines !== null && lines.length === 0 && (
        <p className="card empty">
          {record.hasEarlier
            ? 'Looking further back in the record…'
            : 'There is no such entry in this record.'}
        </p>
      )}
      {lines.length > 0 && (
        <section className="card record-box" aria-label="Newest entries">
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
      )}
      {record.hasEarlier && (
        <button type="button" className="button" onClick={record.earlier}>
          Show earlier entries
        </button>
      )}
    </div>
  );
}
