/** One worksheet as it stands in the book: readings with what they were before, the working, photographs, corrections. */
import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { LabLot, LabWorksheet } from '../../../machines/lab/state.ts';
import { fieldsOf, type Readings, SHEETS } from '../../../machines/lab/worksheets/index.ts';
import { sieveOf } from '../../../machines/scenario/lab-tests.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { bandOf, contextOf, specOf } from '../book-like.ts';
import { type Lab, useLab, worksheetOf } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { AttachPhoto } from '../photos/attach-photo.tsx';
import { PhotoList } from '../photos/photo-list.tsx';
import { GradationPlot } from '../plot/gradation-plot.tsx';
import { LabStanding } from '../standing.tsx';
import { personName, propertyWords, valueWords, whenWords } from '../words.ts';
import { Correct } from './correct.tsx';
import { Working } from './working.tsx';
import './worksheets.css';

export function WorksheetPage({ id }: { readonly id: string }) {
  const lab = useLab();
  const found = worksheetOf(lab.view, id);
  return (
    <LabFrame title="Lab">
      <LabStanding lab={lab}>
        {found === null ? (
          <p className="card empty">
            The lab’s book has no worksheet {id} at hand. Those of lots finished long ago are in their lot
            files.
          </p>
        ) : (
          <Worksheet lab={lab} worksheet={found.sheet} lot={found.lot} />
        )}
      </LabStanding>
    </LabFrame>
  );
}

function Worksheet({
  lab,
  worksheet,
  lot,
}: {
  readonly lab: Lab;
  readonly worksheet: LabWorksheet;
  readonly lot: LabLot | null;
}) {
  const people = useLive((live) => live.people);
  const [correcting, setCorrecting] = useState(false);
  const [asideAsked, setAsideAsked] = useState(false);
  const asked = useCommand();
  const sheet = SHEETS[worksheet.sheet];
  const context = useMemo(
    () => contextOf(lab.view, lot, worksheet.sample, lab.at),
    [lab.view, lot, worksheet.sample, lab.at],
  );
  const readings = worksheet.readings as Readings;
  const worked = useMemo(() => sheet.workOut(readings, context), [sheet, readings, context]);
  const spec = specOf(lab.view, lot);
  const passing = worksheet.results.flatMap(({ property, value }) => {
    const mm = sieveOf(property);
    return mm === null ? [] : [{ mm, pct: value }];
  });
  return (
    <article className="stack" aria-labelledby="sheet-head">
      <div className="lot-head">
        <h2 id="sheet-head">
          {worksheet.aside === null ? worksheet.id : <del>{worksheet.id}</del>} {sheet.title}
          {worksheet.retest && ', retest'}
        </h2>
        <span className="soft">
          tested by {personName(people, worksheet.testedBy)}, {whenWords(worksheet.testedAt)}; entered by{' '}
          {personName(people, worksheet.enteredBy)}, {whenWords(worksheet.enteredAt)}
        </span>
        {worksheet.lot !== null && (
          <Link className="button to-right" href={`/lab/lots/${worksheet.lot}`}>
            Lot {worksheet.lot}, sample {worksheet.sample}
          </Link>
        )}
      </div>
      {worksheet.simulated && (
        <p className="draft-words">
          <Mark shape="ring" />
          Simulated readings: no bench was used.
        </p>
      )}
      {worksheet.aside !== null && (
        <p className="draft-words">
          <Mark shape="flag" />
          Set aside by {personName(people, worksheet.aside.by)}, {whenWords(worksheet.aside.at)}:{' '}
          {worksheet.aside.reason}. It does not count.
        </p>
      )}
      {correcting ? (
        <Correct lab={lab} worksheet={worksheet} lot={lot} onClose={() => setCorrecting(false)} />
      ) : (
        <div className="sheet-form">
          <section className="card stack" aria-labelledby="readings-head">
            <h3 id="readings-head">Readings</h3>
            <table className="kept-readings">
              <tbody>
                {fieldsOf(sheet, readings, context)
                  .filter(({ key }) => readings[key] !== undefined && readings[key] !== '')
                  .map((field) => (
                    <tr key={field.key}>
                      <th scope="row">{field.label}</th>
                      <td className="num">
                        {wasBefore(worksheet, field.key).map((was, i) => (
                          // biome-ignore lint/suspicious/noArrayIndexKey: earlier values only ever grow at the end
                          <del key={i} className="soft">
                            {was}{' '}
                          </del>
                        ))}
                        {field.choices?.find(({ is }) => is === readings[field.key])?.label ??
                          String(readings[field.key])}{' '}
                        {field.unit}
                      </td>
                    </tr>
                  ))}
              </tbody>
            </table>
            <div className="row">
              {worksheet.aside === null ? (
                <>
                  <button type="button" className="button" onClick={() => setCorrecting(true)}>
                    Correct a reading
                  </button>
                  <button type="button" className="button danger" onClick={() => setAsideAsked(true)}>
                    Set it aside
                  </button>
                </>
              ) : (
                <button type="button" className="button" onClick={() => setAsideAsked(true)}>
                  Bring it back
                </button>
              )}
            </div>
            <Refusal because={asked.refusal} onClose={asked.clear} />
          </section>
          <section className="card stack" aria-labelledby="kept-working">
            <h3 id="kept-working">What it gives</h3>
            <Working
              worked={worked}
              wanted={[]}
              limits={(spec?.limits ?? []).filter(({ when }) => when === undefined)}
            >
              {passing.length > 0 && (
                <GradationPlot title="Grading against the band" passing={passing} band={bandOf(spec)} />
              )}
            </Working>
            <p className="soft-line">{sheet.basis}</p>
          </section>
        </div>
      )}
      {worksheet.corrections.length > 0 && (
        <section className="card stack" aria-labelledby="corrections-head">
          <h3 id="corrections-head">Corrections</h3>
          <ol className="timeline">
            {worksheet.corrections.map((one) => (
              <li key={one.at}>
                <span className="num soft">{whenWords(one.at)}</span>
                <span>
                  {one.changes.map(({ field, was, now }) => (
                    <span key={field} className="block num">
                      {labelOf(worksheet, field, context)}: <del>{was === null ? 'empty' : String(was)}</del>{' '}
                      {now === null ? 'empty' : String(now)}
                    </span>
                  ))}
                  {one.wasResults
                    .filter(
                      (was) =>
                        worksheet.results.find((r) => r.property === was.property)?.value !== was.value,
                    )
                    .slice(0, 6)
                    .map((was) => (
                      <span key={was.property} className="block num soft">
                        {propertyWords(was.property)} was <del>{valueWords(was.property, was.value)}</del>
                      </span>
                    ))}
                  {one.reason}
                  <span className="soft"> · {personName(people, one.by)}</span>
                </span>
              </li>
            ))}
          </ol>
        </section>
      )}
      <section className="card stack" aria-labelledby="photos-head">
        <h3 id="photos-head">Photographs</h3>
        <PhotoList
          photos={worksheet.photos
            .filter(({ aside }) => aside === null)
            .map(({ sha256, caption, by, at }) => ({
              sha256,
              words: caption,
              by: personName(people, by),
              at,
            }))}
        />
        <AttachPhoto
          onSent={async ({ sha256 }, caption) => {
            const answer = await lab.ask({ do: 'attachPhoto', worksheet: worksheet.id, sha256, caption });
            return answer.ok ? null : answer.because;
          }}
        />
      </section>
      {asideAsked && (
        <ConfirmDialog
          title={worksheet.aside === null ? `Set ${worksheet.id} aside?` : `Bring ${worksheet.id} back?`}
          words={
            worksheet.aside === null
              ? 'It stays in the record and does not count any more.'
              : 'It counts again from now on.'
          }
          go={worksheet.aside === null ? 'Set it aside' : 'Bring it back'}
          danger={worksheet.aside === null}
          needsReason
          onClose={() => setAsideAsked(false)}
          onGo={(reason) => {
            setAsideAsked(false);
            void asked.ask(
              () =>
                lab.ask({
                  do: worksheet.aside === null ? 'setWorksheetAside' : 'bringWorksheetBack',
                  worksheet: worksheet.id,
                  reason,
                }),
              'Done, with its reason.',
            );
          }}
        />
      )}
    </article>
  );
}

/** Earlier values of a reading, oldest first. */
const wasBefore = (worksheet: LabWorksheet, field: string): readonly string[] =>
  worksheet.corrections.flatMap(({ changes }) =>
    changes
      .filter((change) => change.field === field)
      .map(({ was }) => (was === null || was === undefined ? 'empty' : String(was))),
  );

const labelOf = (worksheet: LabWorksheet, key: string, context: ReturnType<typeof contextOf>): string =>
  fieldsOf(SHEETS[worksheet.sheet], worksheet.readings as Readings, context).find(
    (field) => field.key === key,
  )?.label ?? key;
