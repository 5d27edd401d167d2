/** A new worksheet: which sheet, of which sample, then the entry itself; afterwards the next one of the same lot. */
import { useMemo } from 'react';
import { Link, useLocation, useSearch } from 'wouter';
import { SHEET_IDS, type SheetId } from '../../../machines/lab/sheet-ids.ts';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';
import { SHEETS } from '../../../machines/lab/worksheets/index.ts';
import { remember } from '../../live/memory.ts';
import { type Lab, useLab, workingLot } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import { EnterSheet } from './enter-sheet.tsx';
import { chosenKey, SHEETS_OF, usualSheet } from './paths.ts';

type About = {
  readonly lot: LabLot | null;
  readonly sample: LabSample | null;
  readonly subject: { readonly kind: 'bin' | 'delivery' | 'material'; readonly id: string } | null;
  readonly sheet: SheetId;
};

const KINDS = ['bin', 'delivery', 'material'] as const;

export function aboutOf(search: string, lab: Lab): About {
  const query = new URLSearchParams(search);
  const lot = workingLot(lab.view, query.get('lot') ?? '');
  const sample = lot?.samples.find(({ n }) => n === Number(query.get('sample'))) ?? null;
  const kind = KINDS.find((one) => one === query.get('kind'));
  const id = query.get('id') ?? '';
  const asked = SHEET_IDS.find((one) => one === query.get('sheet'));
  return {
    lot,
    sample,
    subject: kind === undefined || id === '' ? null : { kind, id },
    sheet: asked ?? usualSheet(sample?.test ?? 'moisture'),
  };
}

export function NewSheetPage() {
  const lab = useLab();
  const search = useSearch();
  const [, go] = useLocation();
  const about = useMemo(() => aboutOf(search, lab), [search, lab]);
  const query = new URLSearchParams(search);
  const { sample, lot } = about;
  const possible = sample === null ? [about.sheet] : (SHEETS_OF[sample.test] ?? [about.sheet]);
  const sheet = SHEETS[about.sheet];
  const wantsLot = query.has('lot');
  return (
    <LabFrame title="Lab">
      <LabStanding lab={lab}>
        {wantsLot && !lab.loading && (lot === null || sample === null) ? (
          <p className="card empty">
            The lab’s book has no sample {query.get('sample')} of lot {query.get('lot')} at work.{' '}
            <Link href="/lab/samples">See the samples there are</Link>.
          </p>
        ) : sheet === undefined || lab.loading ? (
          <p className="card empty">This worksheet is not there.</p>
        ) : (
          <>
            <div className="lot-head">
              <h2>
                {sheet.title}
                {lot !== null && sample !== null && `: lot ${lot.lot}, sample ${sample.n}`}
                {about.subject !== null && `: ${about.subject.kind} ${about.subject.id}`}
              </h2>
              {possible.length > 1 && (
                <fieldset className="row" aria-label="Which sheet">
                  {possible.map((id) => (
                    <button
                      key={id}
                      type="button"
                      className="button"
                      aria-pressed={id === about.sheet}
                      onClick={() => {
                        if (sample !== null) remember(chosenKey(sample.test), id);
                        query.set('sheet', id);
                        go(`/lab/worksheets/new?${query}`, { replace: true });
                      }}
                    >
                      {SHEETS[id]?.title ?? id}
                    </button>
                  ))}
                </fieldset>
              )}
            </div>
            <EnterSheet
              key={`${about.sheet}/${lot?.lot}/${sample?.n}/${about.subject?.kind}/${about.subject?.id}`}
              lab={lab}
              sheet={sheet}
              lot={lot}
              sample={sample}
              subject={about.subject}
            />
          </>
        )}
      </LabStanding>
    </LabFrame>
  );
}
