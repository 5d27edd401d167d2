/** What is asked for, kept in the address of the page, so that a report can be linked and gone back to. */
import { FILTERS, REPORT_KINDS, type ReportKind } from '../../machines/reports/filter.ts';

export type FilterKey = (typeof FILTERS)[ReportKind][number];
export type Asked = { readonly kind: ReportKind; readonly filter: { readonly [K in FilterKey]?: string } };

const KEYS: readonly FilterKey[] = ['shift', 'from', 'to', 'lot', 'batch', 'person', 'material'];

export const askedOf = (search: string): Asked => {
  const params = new URLSearchParams(search);
  const kind = REPORT_KINDS.find((one) => one === params.get('kind')) ?? 'shift';
  const filter: { [K in FilterKey]?: string } = {};
  for (const key of KEYS) {
    const value = params.get(key);
    if (value !== null && value !== '' && FILTERS[kind].includes(key)) filter[key] = value;
  }
  return { kind, filter };
};

/** The query of the server: what the report knows no filter for is left away. */
export const queryOf = ({ kind, filter }: Asked): string => {
  const params = new URLSearchParams();
  for (const key of KEYS) {
    const value = filter[key];
    if (value !== undefined && value !== '' && FILTERS[kind].includes(key)) params.set(key, value);
  }
  return params.toString();
};

export const searchOf = (asked: Asked): string => {
  const query = queryOf(asked);
  return `kind=${asked.kind}${query === '' ? '' : `&${query}`}`;
};

/** A batch sheet and a lot file need to be told which. */
export const whatIsMissing = ({ kind, filter }: Asked): 'batch' | 'lot' | null => {
  if (kind === 'batch' && filter.batch === undefined) return 'batch';
  return (kind === 'lot' || kind === 'certificate') && filter.lot === undefined ? 'lot' : null;
};
