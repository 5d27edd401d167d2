/** The entries around the moment: what was asked, what was refused and why, what happened. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { shiftClock } from '../format/format.ts';
import { Mark } from '../parts/mark.tsx';
import type { Sort } from '../records/entries.ts';
import { SORT_SHAPE, SORT_WORD } from '../records/sorts.ts';
import { useReplay, useReplayClient } from './context.ts';
import { indexAfter } from './jumps.ts';
import { TICK_MS } from './replay.types.ts';
import type { ReplayLine } from './worker/lines.ts';

const NONE: readonly ReplayLine[] = [];
/** Enough to see what led here and what came of it. */
const BEFORE = 60;
const AFTER = 60;

const SORTS: readonly { readonly sort: Sort | 'all'; readonly words: string }[] = [
  { sort: 'all', words: 'All' },
  { sort: 'command', words: 'Commands' },
  { sort: 'refusal', words: 'Refusals' },
  { sort: 'fact', words: 'Facts' },
  { sort: 'note', words: 'Notes' },
];

/** The sentence without its reasons, which stand below it one by one. */
const beforeReasons = (text: string): string => text.slice(0, text.indexOf(':') + 1) || text;

function Row({
  line,
  startsAt,
  who,
  isNow,
}: {
  readonly line: ReplayLine;
  readonly startsAt: string;
  readonly who: string;
  readonly isNow: boolean;
}) {
  const replay = useReplayClient();
  return (
    <tr
      className={`entry-${line.sort}${isNow ? ' replay-now' : ''}`}
      aria-current={isNow ? 'true' : undefined}
    >
      <td>
        <button
          type="button"
          className="button replay-entry-go num"
          onClick={() => replay.seek('a', line.tick)}
        >
          {shiftClock(startsAt, line.tick * TICK_MS)}
          <span className="hidden-words">: go there</span>
        </button>
      </td>
      <td>
        <span className="record-sort">
          <Mark shape={SORT_SHAPE[line.sort]} />
          {SORT_WORD[line.sort]}
        </span>
      </td>
      <td className="record-text">
        {line.because.length > 1 ? beforeReasons(line.text) : line.text}
        {line.because.length > 1 && (
          <ul className="bullets">
            {line.because.map((why) => (
              <li key={why}>{why}</li>
            ))}
          </ul>
        )}
      </td>
      <td className="record-who">{who}</td>
      <td className="num soft">{line.seq}</td>
    </tr>
  );
}

export function EntriesPage() {
  const lines = useReplay((state) => state.opened?.lines ?? NONE);
  const people = useReplay((state) => state.opened?.scenario.people);
  const startsAt = useReplay((state) => state.opened?.manifest.shift.startsAt ?? '00:00');
  const at = useReplay((state) => state.at.a);
  const [sort, setSort] = useState<Sort | 'all'>('all');
  const table = useRef<HTMLTableElement>(null);
  const kept = useMemo(
    () => (sort === 'all' ? lines : lines.filter((line) => line.sort === sort)),
    [lines, sort],
  );
  const here = indexAfter(kept, at);
  const shown = kept.slice(Math.max(0, here - BEFORE), here + AFTER);
  const now = kept[here - 1]?.seq ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another entry at the moment is a reason to bring it in sight
  useEffect(() => {
    table.current?.querySelector('.replay-now')?.scrollIntoView({ block: 'center' });
  }, [now, sort]);
  const nameOf = (id: string) => people?.find((person) => person.id === id)?.name ?? id;
  return (
    <div className="page">
      <div className="page-head">
        <h1>Entries around {shiftClock(startsAt, at * TICK_MS)}</h1>
        <p className="soft">The newest entry at this moment is marked. Readings are under Traces.</p>
      </div>
      <fieldset className="row" aria-label="Which entries are shown">
        {SORTS.map((each) => (
          <button
            key={each.sort}
            type="button"
            className="button"
            aria-pressed={sort === each.sort}
            onClick={() => setSort(each.sort)}
          >
            {each.words}
          </button>
        ))}
      </fieldset>
      {shown.length === 0 ? (
        <p className="card empty">There is no such entry in this record.</p>
      ) : (
        <section className="card record-box" aria-label="Entries around the moment">
          <table className="record replay-entries" ref={table}>
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
              {shown.map((line) => (
                <Row
                  key={line.seq}
                  line={line}
                  startsAt={startsAt}
                  who={nameOf(line.by)}
                  isNow={line.seq === now}
                />
              ))}
            </tbody>
          </table>
        </section>
      )}
    </div>
  );
}
