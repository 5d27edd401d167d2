/** A general reader of RFC 4180, strict: it throws at whatever the grammar does not allow. */

/** Rows of fields; a byte-order mark in front is passed over, lines end with CRLF. */
export const parseCsv = (text: string): string[][] => {
  const source = text.replace(/^\ufeff/, '');
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  const fail = (what: string): never => {
    throw new Error(`${what} at ${at}: ${JSON.stringify(source.slice(at, at + 20))}`);
  };
  const quoted = (): string => {
    let value = '';
    for (at += 1; ; ) {
      const next = source.indexOf('"', at);
      if (next < 0) fail('a quote is never closed');
      value += source.slice(at, next);
      at = next + 1;
      if (source[at] !== '"') return value;
      value += '"';
      at += 1;
    }
  };
  const bare = (): string => {
    const found = /[,\r\n"]/.exec(source.slice(at));
    const end = found === null ? source.length : at + found.index;
    const value = source.slice(at, end);
    at = end;
    return value;
  };
  while (at < source.length) {
    row.push(source[at] === '"' ? quoted() : bare());
    if (source[at] === ',') {
      at += 1;
      if (at === source.length) row.push('');
      continue;
    }
    if (!source.startsWith('\r\n', at)) fail('neither a comma nor a line end');
    at += 2;
    rows.push(row);
    row = [];
  }
  if (row.length > 0) fail('the last line has no end');
  return rows;
};
