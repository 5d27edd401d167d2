/** Narrows the entries down: by day, lot, person and material, out of what the record really holds. */
import type { Choices } from '../../machines/reports/choices.ts';
import type { FoundQuery } from '../../machines/reports/found.ts';
import { useFetched } from '../reports/fetching.ts';
import { daysOf, Select } from '../reports/filters.tsx';

type Kept = { -readonly [K in Exclude<keyof FoundQuery, 'kind'>]?: string };

const isChoices = (value: unknown): value is Choices =>
  typeof value === 'object' && value !== null && 'materials' in value;

/** The newest shift of the days chosen is the one whose lots, people and materials are offered. */
const shiftOffered = (choices: Choices | null, { from, to }: Kept): number | undefined =>
  choices?.shifts.findLast(
    (one) => (from === undefined || one.day >= from) && (to === undefined || one.day <= to),
  )?.shift;

export function EntryFilters({
  kept,
  onKeep,
}: {
  readonly kept: Kept;
  readonly onKeep: (next: Kept) => void;
}) {
  const all = useFetched('/api/reports/choices', isChoices).fetched;
  const shifts = all.is === 'here' ? all.value : null;
  const offered = shiftOffered(shifts, kept);
  const { fetched } = useFetched(
    shifts === null || offered === undefined ? null : `/api/reports/choices?shift=${offered}`,
    isChoices,
  );
  const choices = fetched.is === 'here' ? fetched.value : fetched.is === 'coming' ? fetched.last : null;
  const set = (key: keyof Kept, value: string | undefined): void => {
    const next: Kept = { ...kept };
    if (value === undefined) delete next[key];
    else next[key] = value;
    onKeep(next);
  };
  const plain = (values: readonly string[] | undefined) =>
    (values ?? []).map((value) => ({ value, words: value }));
  return (
    <form
      className="card report-filters"
      aria-labelledby="search-head"
      onSubmit={(event) => event.preventDefault()}
    >
      <h2 id="search-head">Search the record</h2>
      <Select
        label="From day"
        value={kept.from}
        none="any"
        choices={daysOf(shifts)}
        onChange={(value) => set('from', value)}
      />
      <Select
        label="To day"
        value={kept.to}
        none="any"
        choices={daysOf(shifts)}
        onChange={(value) => set('to', value)}
      />
      <Select
        label="Lot"
        value={kept.lot}
        none="any"
        choices={plain(choices?.lots)}
        onChange={(value) => set('lot', value)}
      />
      <Select
        label="Person"
        value={kept.person}
        none="anybody"
        choices={(choices?.people ?? []).map((one) => ({ value: one.id, words: one.name }))}
        onChange={(value) => set('person', value)}
      />
      <Select
        label="Material"
        value={kept.material}
        none="any"
        choices={plain(choices?.materials)}
        onChange={(value) => set('material', value)}
      />
      {Object.keys(kept).length > 0 && (
        <div className="filter-end">
          <button type="button" className="button" onClick={() => onKeep({})}>
            Clear the search
          </button>
        </div>
      )}
    </form>
  );
}
