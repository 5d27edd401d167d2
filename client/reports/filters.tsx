/** Which report, and of what: every choice is one the record really has. */
import { useId } from 'react';
import type { Choices } from '../../machines/reports/choices.ts';
import { FILTERS, REPORT_KINDS, REPORT_TITLES } from '../../machines/reports/filter.ts';
import type { Asked, FilterKey } from './query.ts';

export type Choice = { readonly value: string; readonly words: string };

export function Select({
  label,
  value,
  choices,
  none,
  onChange,
}: {
  readonly label: string;
  readonly value: string | undefined;
  readonly choices: readonly Choice[];
  /** What it is called to choose none; null when one must be chosen. */
  readonly none: string | null;
  readonly onChange: (value: string | undefined) => void;
}) {
  const id = useId();
  // What a link asks for is shown even when the lists, made for another shift, do not have it.
  const unknown = value !== undefined && !choices.some((choice) => choice.value === value);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value ?? ''}
        onChange={(event) => onChange(event.target.value === '' ? undefined : event.target.value)}
      >
        {(none !== null || value === undefined) && <option value="">{none ?? 'choose…'}</option>}
        {unknown && <option value={value}>{value}</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.words}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Days the record has shifts of, the newest first. */
export const daysOf = (choices: Choices | null): Choice[] =>
  [...new Set((choices?.shifts ?? []).map((one) => one.day))]
    .reverse()
    .map((day) => ({ value: day, words: day }));

const shiftWords = (one: Choices['shifts'][number]): string =>
  `${one.day} ${one.scenario.replaceAll('-', ' ')}${one.ended ? '' : ', running'}${one.sealed ? ', sealed' : ''}`;

export function ReportFilters({
  asked,
  choices,
  onAsk,
}: {
  readonly asked: Asked;
  readonly choices: Choices | null;
  readonly onAsk: (next: Asked) => void;
}) {
  const { kind, filter } = asked;
  const knows = (key: FilterKey): boolean => FILTERS[kind].includes(key);
  const set = (key: FilterKey, value: string | undefined): void => {
    const next = { ...filter, [key]: value };
    // Lots and batches belong to their shift: another shift has others.
    if (key === 'shift') for (const old of ['lot', 'batch'] as const) delete next[old];
    onAsk({ kind, filter: Object.fromEntries(Object.entries(next).filter(([, one]) => one !== undefined)) });
  };
  const plain = (values: readonly (string | number)[] | undefined): Choice[] =>
    (values ?? []).map((value) => ({ value: String(value), words: String(value) }));
  return (
    <form
      className="card report-filters"
      aria-label="Which report"
      onSubmit={(event) => event.preventDefault()}
    >
      <Select
        label="Report"
        value={kind}
        none={null}
        choices={REPORT_KINDS.map((one) => ({ value: one, words: REPORT_TITLES[one] }))}
        onChange={(value) => onAsk({ kind: REPORT_KINDS.find((one) => one === value) ?? 'shift', filter })}
      />
      <Select
        label="Shift"
        value={filter.shift}
        none={kind === 'alarms' || kind === 'refusals' ? 'newest, or all of the days' : 'newest that fits'}
        choices={[...(choices?.shifts ?? [])]
          .reverse()
          .map((one) => ({ value: String(one.shift), words: shiftWords(one) }))}
        onChange={(value) => set('shift', value)}
      />
      {knows('lot') && (
        <Select
          label="Lot"
          value={filter.lot}
          none={kind === 'lot' || kind === 'certificate' ? null : 'all lots'}
          choices={plain(choices?.lots)}
          onChange={(value) => set('lot', value)}
        />
      )}
      {knows('batch') && (
        <Select
          label="Batch"
          value={filter.batch}
          none={null}
          choices={plain(choices?.batches)}
          onChange={(value) => set('batch', value)}
        />
      )}
      {knows('person') && (
        <Select
          label="Person"
          value={filter.person}
          none="everybody"
          choices={(choices?.people ?? []).map((one) => ({ value: one.id, words: one.name }))}
          onChange={(value) => set('person', value)}
        />
      )}
      {knows('material') && (
        <Select
          label="Material"
          value={filter.material}
          none="all materials"
          choices={plain(choices?.materials)}
          onChange={(value) => set('material', value)}
        />
      )}
      <Select
        label="From day"
        value={filter.from}
        none="any"
        choices={daysOf(choices)}
        onChange={(value) => set('from', value)}
      />
      <Select
        label="To day"
        value={filter.to}
        none="any"
        choices={daysOf(choices)}
        onChange={(value) => set('to', value)}
      />
    </form>
  );
}
