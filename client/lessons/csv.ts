/** Rows as comma-separated values (RFC 4180): a head line, then one line a row, numbers with a point. */

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

export const csvOf = <Row>(
  rows: readonly Row[],
  columns: readonly { readonly head: string; readonly of: (row: Row) => number | null }[],
): string =>
  `${[
    columns.map(({ head }) => quoted(head)).join(','),
    ...rows.map((row) =>
      columns
        .map(({ of }) => {
          const value = of(row);
          return value === null ? '' : String(Number(value.toPrecision(7)));
        })
        .join(','),
    ),
  ].join('\r\n')}\r\n`;
