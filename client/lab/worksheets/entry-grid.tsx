/** The fields of a worksheet, made for a keyboard beside a balance: Enter or the arrow down goes on, no mouse is needed. */
import { type KeyboardEvent, useId, useRef } from 'react';
import type { FieldSpec } from '../../../machines/lab/worksheets/sheet.types.ts';
import type { Readings } from './drafts.ts';
import { groupsOf, isAsked, wholeTime } from './typing.ts';

const ENTRY = 'input, select';

export function EntryGrid({
  fields,
  readings,
  problems,
  nowAt,
  onChange,
  onEnd,
}: {
  readonly fields: readonly FieldSpec[];
  readonly readings: Readings;
  /** What is wrong, by field. */
  readonly problems: { readonly [key: string]: string };
  readonly nowAt: string;
  readonly onChange: (key: string, text: string) => void;
  /** Enter on the last field, or Ctrl and Enter anywhere. */
  readonly onEnd: () => void;
}) {
  const box = useRef<HTMLDivElement>(null);
  const id = useId();

  const keys = (event: KeyboardEvent<HTMLDivElement>) => {
    const at = event.target;
    if (!(at instanceof HTMLInputElement || at instanceof HTMLSelectElement)) return;
    const isSelect = at instanceof HTMLSelectElement;
    const by =
      event.key === 'Enter' || (event.key === 'ArrowDown' && !isSelect)
        ? event.shiftKey
          ? -1
          : 1
        : event.key === 'ArrowUp' && !isSelect
          ? -1
          : 0;
    if (by === 0) return;
    event.preventDefault();
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) return onEnd();
    const entries = [...(box.current?.querySelectorAll<HTMLInputElement | HTMLSelectElement>(ENTRY) ?? [])];
    const next = entries[entries.indexOf(at) + by];
    if (next === undefined) {
      if (by > 0) onEnd();
      return;
    }
    next.focus();
    if (next instanceof HTMLInputElement) next.select();
  };

  return (
    // The keys go from field to field here; each field is reached by Tab as well.
    // biome-ignore lint/a11y/noStaticElementInteractions: only listens to keys of the fields inside
    <div className="entry-grid" ref={box} onKeyDown={keys}>
      {groupsOf(fields.filter((field) => isAsked(field, readings))).map(({ name, fields: own }) => (
        <fieldset key={name}>
          <legend className="label">{name}</legend>
          {own.map((field) => (
            <Entry
              key={field.key}
              id={`${id}-${field.key}`}
              field={field}
              value={readings[field.key] ?? ''}
              problem={problems[field.key] ?? null}
              nowAt={nowAt}
              onChange={onChange}
            />
          ))}
        </fieldset>
      ))}
    </div>
  );
}

function Entry({
  id,
  field,
  value,
  problem,
  nowAt,
  onChange,
}: {
  readonly id: string;
  readonly field: FieldSpec;
  readonly value: string;
  readonly problem: string | null;
  readonly nowAt: string;
  readonly onChange: (key: string, text: string) => void;
}) {
  const help = problem ?? field.hint ?? (field.kind === 'time' ? 'n for now, or 14:05' : null);
  const common = {
    id,
    'data-field': field.key,
    value,
    'aria-invalid': problem !== null,
    ...(help === null ? {} : { 'aria-describedby': `${id}-help` }),
  };
  return (
    <div className={problem === null ? 'entry' : 'entry wrong'}>
      <label htmlFor={id}>
        {field.label}
        {field.symbol !== undefined && <span className="soft entry-symbol"> {field.symbol}</span>}
        {field.optional === true && <span className="soft"> (may stay empty)</span>}
      </label>
      <span className="entry-box">
        {field.choices !== undefined ? (
          <select {...common} onChange={(event) => onChange(field.key, event.target.value)}>
            <option value="">choose</option>
            {field.choices.map(({ is, label }) => (
              <option key={is} value={is}>
                {label}
              </option>
            ))}
          </select>
        ) : (
          <input
            {...common}
            type="text"
            className="num"
            inputMode={field.kind === 'time' ? 'text' : 'decimal'}
            autoComplete="off"
            maxLength={40}
            onChange={(event) => onChange(field.key, event.target.value)}
            onBlur={(event) => {
              if (field.kind === 'time' && event.target.value !== '')
                onChange(field.key, wholeTime(event.target.value, nowAt));
            }}
          />
        )}
        {field.unit !== '' && <span className="entry-unit">{field.unit}</span>}
      </span>
      {help !== null && (
        <span id={`${id}-help`} className={problem === null ? 'entry-help soft' : 'entry-help warn-words'}>
          {help}
        </span>
      )}
    </div>
  );
}
