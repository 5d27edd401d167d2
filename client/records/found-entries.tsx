/** Entries looked up in the whole record by day, lot, person and material, shift by shift. */
import type { Entry } from '../../machines/record/entry.ts';
import type { FoundQuery } from '../../machines/reports/found.ts';
import { useFetched } from '../reports/fetching.ts';
import { lineOf } from './entries.ts';
import { EntryTable } from './entry-table.tsx';

type FoundShift = {
  readonly shift: number;
  readonly day: string;
  readonly startsAt: string;
  readonly archived: boolean;
  readonly entries: readonly Entry[];
};
type Found = { readonly shifts: readonly FoundShift[]; readonly more: boolean };

const isFound = (value: unknown): value is Found =>
  typeof value === 'object' && value !== null && 'shifts' in value && Array.isArray(value.shifts);

export const foundPath = (query: FoundQuery): string =>
  `/api/record/found?${new URLSearchParams(
    Object.entries(query).filter((pair): pair is [string, string] => pair[1] !== undefined),
  )}`;

export function FoundEntries({ query }: { readonly query: FoundQuery }) {
  const { fetched, again } = useFetched(foundPath(query), isFound);
  if (fetched.is === 'failed')
    return (
      <div className="card failure" role="alert">
        <h2>The record cannot be searched just now</h2>
        <p>{fetched.why}</p>
        <button type="button" className="button primary" onClick={again}>
          Try again
        </button>
      </div>
    );
  const found = fetched.is === 'here' ? fetched.value : fetched.is === 'coming' ? fetched.last : null;
  if (found === null)
    return (
      <p className="card empty" role="status">
        Searching the record…
      </p>
    );
  if (found.shifts.length === 0)
    return <p className="card empty">No entry of the record meets all of this: take one condition away.</p>;
  return (
    <div className="stack" aria-busy={fetched.is === 'coming'}>
      {found.shifts.map((one) =>
        one.archived ? (
          <p key={one.shift} className="card empty">
            Shift of {one.day}: its entries lie in an export file. Restore the shift to look into it.
          </p>
        ) : (
          <EntryTable
            key={one.shift}
            lines={one.entries.map(lineOf).filter((line) => line !== null)}
            startsAt={one.startsAt}
            label={`Entries found in the shift of ${one.day}`}
          >
            <h2 className="found-day">Shift of {one.day}</h2>
          </EntryTable>
        ),
      )}
      {found.more && (
        <p className="card empty">There is more than is shown here: narrow it down, by day for instance.</p>
      )}
    </div>
  );
}
