/** A preview of the table with what each column means, and how its signs are read; a person confirms it. */
import { useId } from 'react';
import {
  FIELD_WORDS,
  FIELDS,
  type Field,
  type Mapping,
  NEEDED,
  type Sized,
  UNITS,
  type Unit,
} from '../../../machines/yard/patches/csv/columns.ts';
import type { Decimal } from '../../../machines/yard/patches/csv/numbers.ts';
import { SEPARATOR_WORDS, SEPARATORS, type Separator } from '../../../machines/yard/patches/csv/separator.ts';
import { Mark } from '../../parts/mark.tsx';
import { Scroll } from './scroll.tsx';
import type { Reading, Source } from './table-source.ts';

const ROWS_SHOWN = 7;
const COLUMNS_SHOWN = 14;
const SIZED: readonly Sized[] = ['length', 'width', 'depth'];

const isSized = (field: Field): field is Sized => (SIZED as readonly string[]).includes(field);
const fieldOf = (mapping: Mapping, column: number): Field | null =>
  FIELDS.find((field) => mapping.columns[field] === column) ?? null;

export function MappingTable({
  source,
  reading,
  mapping,
  onSeparator,
  onMapping,
}: {
  readonly source: Source;
  readonly reading: Reading;
  readonly mapping: Mapping;
  readonly onSeparator: (separator: Separator) => void;
  readonly onMapping: (mapping: Mapping) => void;
}) {
  const id = useId();
  const head = source.rows[0] ?? [];
  const columns = Math.min(
    COLUMNS_SHOWN,
    Math.max(...source.rows.slice(0, ROWS_SHOWN).map((row) => row.length)),
  );
  const set = (change: Partial<Mapping>) => onMapping({ ...mapping, ...change });
  const name = (column: number, field: Field | null) => {
    const next: { [F in Field]: number | null } = { ...mapping.columns };
    for (const one of FIELDS) if (next[one] === column) next[one] = null;
    if (field !== null) next[field] = column;
    set({ columns: next });
  };
  return (
    <div className="stack">
      <div className="yp-reading">
        <div className="field">
          <label htmlFor={`${id}-sep`}>Columns are separated by</label>
          <select
            id={`${id}-sep`}
            value={source.separator}
            onChange={(event) => onSeparator(event.target.value as Separator)}
          >
            {SEPARATORS.map((sign) => (
              <option key={sign} value={sign}>
                {SEPARATOR_WORDS[sign]}
              </option>
            ))}
          </select>
          {!source.separatorSure && (
            <span className="warn-words">
              Not plain from the rows: see whether the columns below are right.
            </span>
          )}
        </div>
        <div className="field">
          <label htmlFor={`${id}-dec`}>Decimal sign</label>
          <select
            id={`${id}-dec`}
            value={mapping.decimal}
            onChange={(event) => set({ decimal: event.target.value as Decimal })}
          >
            <option value=".">point: 1.5 is one and a half</option>
            <option value=",">comma: 1,5 is one and a half</option>
          </select>
          {reading.decimalMixed ? (
            <span className="warn-words">
              Both signs are in use: rows with the other one are refused below.
            </span>
          ) : reading.decimalSure ? (
            <span className="soft">
              {reading.decimalExample === null
                ? 'Whole numbers only.'
                : `Seen in "${reading.decimalExample}".`}
            </span>
          ) : (
            <span className="warn-words">Not plain from the cells: choose.</span>
          )}
        </div>
        <div className="field">
          <label htmlFor={`${id}-by`}>Compacted by, where a row does not say</label>
          <select
            id={`${id}-by`}
            value={mapping.otherwise.compactedBy}
            onChange={(event) =>
              set({
                otherwise: {
                  ...mapping.otherwise,
                  compactedBy: event.target.value === 'roller' ? 'roller' : 'hand rammer',
                },
              })
            }
          >
            <option value="hand rammer">hand rammer</option>
            <option value="roller">roller</option>
          </select>
        </div>
      </div>
      <div className="row yp-checks">
        <label className="check">
          <input
            type="checkbox"
            className="hidden-words"
            checked={mapping.header}
            onChange={(event) => set({ header: event.target.checked })}
          />
          <span className="box">
            <Mark shape="check" />
          </span>
          The first row is names of columns
        </label>
        {reading.merged && (
          <label className="check">
            <input
              type="checkbox"
              className="hidden-words"
              checked={mapping.fillDown}
              onChange={(event) => set({ fillDown: event.target.checked })}
            />
            <span className="box">
              <Mark shape="check" />
            </span>
            An empty place or route means the one above it (merged cells)
          </label>
        )}
      </div>
      <Scroll label="Preview of the table">
        <table className="yp-table yp-preview">
          <thead>
            <tr>
              <th scope="col">Row</th>
              {Array.from({ length: columns }, (_, column) => {
                const field = fieldOf(mapping, column);
                return (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place
                  <th scope="col" key={column}>
                    <select
                      aria-label={`Column ${column + 1}${head[column] ? `, ${head[column]}` : ''}, means`}
                      value={field ?? ''}
                      onChange={(event) =>
                        name(column, event.target.value === '' ? null : (event.target.value as Field))
                      }
                    >
                      <option value="">not used</option>
                      {FIELDS.map((one) => (
                        <option key={one} value={one}>
                          {FIELD_WORDS[one]}
                          {NEEDED.includes(one) ? ' *' : ''}
                        </option>
                      ))}
                    </select>
                    {field !== null && isSized(field) && (
                      <select
                        aria-label={`Unit of ${FIELD_WORDS[field]}`}
                        value={mapping.units[field]}
                        onChange={(event) =>
                          set({ units: { ...mapping.units, [field]: event.target.value as Unit } })
                        }
                      >
                        {UNITS.map((unit) => (
                          <option key={unit} value={unit}>
                            in {unit}
                          </option>
                        ))}
                      </select>
                    )}
                  </th>
                );
              })}
            </tr>
          </thead>
          <tbody>
            {source.rows.slice(0, ROWS_SHOWN).map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place
              <tr key={i} className={i === 0 && mapping.header ? 'yp-head-row' : ''}>
                <td className="num soft">{i + 1}</td>
                {Array.from({ length: columns }, (_, column) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place
                  <td key={column}>{(row[column] ?? '').slice(0, 60)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {source.rows.length > ROWS_SHOWN && (
        <p className="soft num">The first {ROWS_SHOWN} rows are shown. * is needed.</p>
      )}
    </div>
  );
}
