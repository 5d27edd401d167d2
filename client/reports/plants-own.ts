/** Reports are of the plant's own record: not of a drill, and not of an export that is being replayed. */
import { SESSION } from '../live/session.ts';
import { RUNNING_LINE, useSource } from '../live/store.ts';

export const useHasReports = (): boolean => useSource() === RUNNING_LINE && SESSION === null;

export const REPORTS_PATH = '/records/reports';

/** Where the report of something is: reportPath('lot', { lot: '260414-1' }). */
export const reportPath = (kind: string, filter: { readonly [key: string]: string | number }): string =>
  `${REPORTS_PATH}?${new URLSearchParams({ kind, ...Object.fromEntries(Object.entries(filter).map(([key, value]) => [key, String(value)])) })}`;
