/** The newest entries of the record: what was asked, what was refused and why, what happened. */
import { useEffect, useState } from 'react';
import { useLive } from '../live/store.ts';
import { ShiftsOnRecord } from '../replay/shifts-on-record.tsx';
import { RecordsTabs } from '../reports/records-tabs.tsx';
import { EntryFilters } from './entry-filters.tsx';
import { EntryTable } from './entry-table.tsx';
import { FoundEntries } from './found-entries.tsx';
import { Keeping } from './keeping.tsx';
import { useRecord } from './use-record.ts';

const SORTS = [
  { sort: 'all', words: 'All' },
  { sort: 'command', words: 'Commands' },
  { sort: 'refusal', words: 'Refusals' },
  { sort: 'fact', words: 'Facts' },
  { sort: 'note', words: 'Notes' },
] as const;

export function RecordsPage() {
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const head = useLive((live) => live.run?.head ?? '');
  const record = useRecord();
  const [shown, setShown] = useState<(typeof SORTS)[number]['sort']>('all');
  const [kept, setKept] = useState<Parameters<typeof EntryFilters>[0]['kept']>({});
  const lines = record.lines?.filter((line) => shown === 'all' || line.sort === shown) ?? [];
  const nothingYet = record.lines !== null && lines.length === 0;
  const { hasEarlier, earlier, trouble } = record;
  // A quiet hour holds readings only: looked through from the newest back until there is something to show.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each answer, empty or not, is a reason to look again
  useEffect(() => {
    if (nothingYet && hasEarlier && trouble === null) earlier();
  }, [record.lines, nothingYet, hasEarlier, trouble, earlier]);
  const searching = Object.keys(kept).length > 0;
  return (
    <div className="page">
      <div className="page-head">
        <h1>Records</h1>
        <p className="soft">
          Nothing here can be changed. Each entry names the one before it by its hash
          {head === '' ? '.' : <span className="num">; the newest is {head.slice(0, 12)}…</span>}
        </p>
      </div>
      <RecordsTabs />
      <ShiftsOnRecord />
      <Keeping />
      <EntryFilters kept={kept} onKeep={setKept} />
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
      {searching ? (
        <FoundEntries query={{ ...kept, ...(shown === 'all' ? {} : { kind: shown }) }} />
      ) : (
        <>
          {record.lines === null && record.trouble === null && (
            <p className="card empty">Reading the record…</p>
          )}
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
          {lines.length > 0 && <EntryTable lines={lines} startsAt={startsAt} label="Newest entries" />}
          {record.hasEarlier && (
            <button type="button" className="button" onClick={record.earlier}>
              Show earlier entries
            </button>
          )}
        </>
      )}
    </div>
  );
}
