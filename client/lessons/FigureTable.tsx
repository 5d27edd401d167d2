/** The same figures as a table, for those who read rather than look, and as a CSV file. */
import { csvOf } from './csv.ts';
import { shortFigure } from './picture-scale.ts';

export type Column<Row> = { readonly head: string; readonly of: (row: Row) => number | null };

const save = (name: string, text: string): void => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  link.download = name;
  link.click();
  // The browser has taken the file by the time the next task runs.
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
};

export function FigureTable<Row>({
  name,
  rows,
  shown = rows,
  columns,
}: {
  /** File name without its ending. */
  readonly name: string;
  readonly rows: readonly Row[];
  /** Rows of the table on the page, when all of them would be too many. */
  readonly shown?: readonly Row[];
  readonly columns: readonly Column<Row>[];
}) {
  return (
    <details className="figure-table">
      <summary>The figures as a table</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
      <section className="figure-scroll" aria-label="Figures of this lesson" tabIndex={0}>
        <table>
          <thead>
            <tr>
              {columns.map(({ head }) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={columns.map(({ of }) => of(row)).join()}>
                {columns.map(({ head, of }, i) => {
                  const value = of(row);
                  const text = value === null ? 'never' : shortFigure(value);
                  return i === 0 ? (
                    <th key={head} scope="row" className="num">
                      {text}
                    </th>
                  ) : (
                    <td key={head} className="num">
                      {text}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <button type="button" className="button" onClick={() => save(`${name}.csv`, csvOf(rows, columns))}>
        Save all {rows.length} rows as CSV
      </button>
    </details>
  );
}
