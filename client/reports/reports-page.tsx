/** Reports: choose one, see it at once, take it along as PDF, CSV or JSON. */
import { useCallback, useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { Choices } from '../../machines/reports/choices.ts';
import { documentOf } from '../../machines/reports/documents/document-of.ts';
import { REPORT_TITLES } from '../../machines/reports/filter.ts';
import type { ReportEnvelope } from '../../machines/reports/report.ts';
import { NOT_A_CONTROLLER } from '../../machines/reports/words.ts';
import { useFetched } from './fetching.ts';
import { ReportFilters } from './filters.tsx';
import { REPORTS_PATH } from './plants-own.ts';
import { type Asked, askedOf, queryOf, searchOf, whatIsMissing } from './query.ts';
import { RecordsTabs } from './records-tabs.tsx';
import { ReportView } from './report-view.tsx';

const has = (value: unknown, key: string): boolean =>
  typeof value === 'object' && value !== null && key in value;

const isChoices = (value: unknown): value is Choices => has(value, 'shifts') && has(value, 'materials');
const isEnvelope = (value: unknown): value is ReportEnvelope =>
  has(value, 'sha256') && has((value as { report?: unknown }).report, 'kind');

const FORMATS = [
  { format: 'pdf', words: 'PDF', what: 'on paper' },
  { format: 'csv', words: 'CSV', what: 'as a table' },
  { format: 'json', words: 'JSON', what: 'as data' },
] as const;

function TakeAlong({ asked, id }: { readonly asked: Asked; readonly id: string }) {
  const query = queryOf(asked);
  return (
    <div className="row report-take">
      {FORMATS.map(({ format, words, what }) => (
        <a
          key={format}
          className={format === 'pdf' ? 'button primary' : 'button'}
          href={`/api/reports/${asked.kind}.${format}${query === '' ? '' : `?${query}`}`}
          download
        >
          {words}
          <span className="hidden-words"> {what}</span>
        </a>
      ))}
      <span className="soft num report-id">{id}</span>
    </div>
  );
}

function Preview({ asked }: { readonly asked: Asked }) {
  const missing = whatIsMissing(asked);
  const query = queryOf(asked);
  const path = missing === null ? `/api/reports/${asked.kind}${query === '' ? '' : `?${query}`}` : null;
  const { fetched, again } = useFetched(path, isEnvelope);
  const envelope = fetched.is === 'here' ? fetched.value : fetched.is === 'coming' ? fetched.last : null;
  const document = useMemo(() => (envelope === null ? null : documentOf(envelope.report)), [envelope]);
  if (missing !== null)
    return (
      <p className="card empty">
        Choose a {missing} above: {missing === 'lot' ? 'a lot file' : 'a batch sheet'} is of one {missing}.
      </p>
    );
  if (fetched.is === 'failed')
    return (
      <div className="card failure" role="alert">
        <h2>The report could not be made</h2>
        <p>{fetched.why}</p>
        <button type="button" className="button primary" onClick={again}>
          Try again
        </button>
      </div>
    );
  if (envelope === null || document === null)
    return (
      <p className="card empty" role="status">
        Making the {REPORT_TITLES[asked.kind].toLowerCase()}…
      </p>
    );
  const { record, plantKey } = envelope.report.head;
  return (
    <div className="stack" aria-busy={fetched.is === 'coming'}>
      <div className="row report-bar">
        <TakeAlong asked={asked} id={envelope.id} />
        <button type="button" className="button" onClick={again}>
          Make it anew
        </button>
      </div>
      <ReportView document={document} />
      <div className="report-foot soft num">
        <p>
          Rests on the record up to entry {record.seq}, hash {record.hash}
        </p>
        <p>
          {plantKey === null
            ? 'No key has been made in this data folder yet'
            : `Plant’s key, fingerprint ${plantKey}`}
        </p>
        <p>SHA-256 of its data {envelope.sha256}</p>
        <p>{NOT_A_CONTROLLER}</p>
      </div>
    </div>
  );
}

export function ReportsPage() {
  const search = useSearch();
  const [, go] = useLocation();
  const asked = useMemo(() => askedOf(search), [search]);
  const shift = asked.filter.shift;
  const { fetched } = useFetched(
    `/api/reports/choices${shift === undefined ? '' : `?shift=${shift}`}`,
    isChoices,
  );
  const choices = fetched.is === 'here' ? fetched.value : fetched.is === 'coming' ? fetched.last : null;
  const ask = useCallback((next: Asked) => go(`${REPORTS_PATH}?${searchOf(next)}`, { replace: true }), [go]);
  return (
    <div className="page">
      <div className="page-head">
        <h1>Records</h1>
        <p className="soft">Every figure comes from the record; the same record gives the same report.</p>
      </div>
      <RecordsTabs />
      <ReportFilters asked={asked} choices={choices} onAsk={ask} />
      {fetched.is === 'failed' && (
        <p className="card empty" role="alert">
          The choices could not be fetched: {fetched.why}
        </p>
      )}
      <Preview asked={asked} />
    </div>
  );
}
