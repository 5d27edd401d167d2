/** Worksheets: those of the lots in work and those on stone, deliveries and bins; and where a new one begins. */
import { useState } from 'react';
import { Link } from 'wouter';
import { SHEET_IDS } from '../../../machines/lab/sheet-ids.ts';
import type { LabWorksheet } from '../../../machines/lab/state.ts';
import { SHEETS } from '../../../machines/lab/worksheets/index.ts';
import { useLive } from '../../live/store.ts';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import { personName, propertyWords, valueWords, whenWords } from '../words.ts';
import { draftKeys } from './drafts.ts';
import { newSheetPath, nextToTest } from './paths.ts';
import { StartSheet } from './start-sheet.tsx';
import './worksheets.css';

const MOST = 80;
const RESULTS_SHOWN = 3;

/** "sieve/260512-3/2" or "moisture/bin/1" as the address of its worksheet. */
function draftPath(key: string): string | null {
  const [sheet = '', a = '', b = ''] = key.split('/');
  if (!SHEET_IDS.some((id) => id === sheet)) return null;
  const isSample = /^\d{6}-\d+$/.test(a);
  return `/lab/worksheets/new?${new URLSearchParams(isSample ? { sheet, lot: a, sample: b } : { sheet, kind: a, id: b })}`;
}

export function WorksheetsList() {
  const lab = useLab();
  const people = useLive((live) => live.people);
  const [drafts] = useState(draftKeys);
  const { view } = lab;
  const next = view.working.flatMap((lot) => {
    const sample = nextToTest(lot);
    return sample === null ? [] : [{ lot, sample }];
  });
  const sheets: readonly LabWorksheet[] = [...view.working.flatMap((lot) => lot.worksheets), ...view.others]
    .sort((a, b) => (a.enteredAt < b.enteredAt ? 1 : -1))
    .slice(0, MOST);
  return (
    <LabFrame
      title="Lab"
      under="Each sheet shows its working, refuses what cannot be, and keeps every correction with its reason."
    >
      <LabStanding lab={lab}>
        <div className="today">
          <section className="card stack" aria-labelledby="next-head">
            <h2 id="next-head">Next sheets</h2>
            {next.length === 0 && <p className="soft">No logged sample waits for its test.</p>}
            <ul className="tasks">
              {next.map(({ lot, sample }) => (
                <li key={lot.lot}>
                  <span className="num">{lot.lot}</span>
                  <span>
                    sample {sample.n}, {sample.test}
                  </span>
                  <Link className="button" href={newSheetPath(lot.lot, sample)}>
                    Fill it in<span className="hidden-words">: lot {lot.lot}</span>
                  </Link>
                </li>
              ))}
            </ul>
            {drafts.length > 0 && (
              <>
                <h3>Drafts on this console</h3>
                <ul className="tasks">
                  {drafts.map((key) => {
                    const path = draftPath(key);
                    const [sheet = '', ...of] = key.split('/');
                    return path === null ? null : (
                      <li key={key}>
                        <span className="warn-words">draft</span>
                        <span>
                          {SHEETS[sheet as keyof typeof SHEETS]?.title ?? sheet}, {of.join(', sample ')}
                        </span>
                        <Link className="button" href={path}>
                          Go on<span className="hidden-words"> with {key}</span>
                        </Link>
                      </li>
                    );
                  })}
                </ul>
              </>
            )}
          </section>
          <StartSheet />
        </div>
        {sheets.length === 0 ? (
          <p className="card empty">No worksheet yet.</p>
        ) : (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
          <section className="card lab-table" aria-label="Worksheets, scrolls sideways" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Sheet</th>
                  <th scope="col">Test</th>
                  <th scope="col">Of</th>
                  <th scope="col">Results</th>
                  <th scope="col">By</th>
                  <th scope="col">Entered</th>
                </tr>
              </thead>
              <tbody>
                {sheets.map((sheet) => (
                  <tr key={sheet.id}>
                    <th scope="row">
                      <Link className="button num" href={`/lab/worksheets/${sheet.id}`}>
                        {sheet.aside === null ? sheet.id : <del>{sheet.id}</del>}
                      </Link>
                    </th>
                    <td>
                      {SHEETS[sheet.sheet]?.title ?? sheet.sheet}
                      {sheet.retest && <span className="soft"> retest</span>}
                    </td>
                    <td className="num">
                      {sheet.lot !== null
                        ? `${sheet.lot}, sample ${sheet.sample}`
                        : `${sheet.subject?.kind ?? ''} ${sheet.subject?.id ?? ''}`}
                    </td>
                    <td className="num">
                      {sheet.results.slice(0, RESULTS_SHOWN).map(({ property, value }) => (
                        <span key={property} className="block">
                          {propertyWords(property)} {valueWords(property, value)}
                        </span>
                      ))}
                      {sheet.results.length > RESULTS_SHOWN && (
                        <span className="soft">and {sheet.results.length - RESULTS_SHOWN} more</span>
                      )}
                    </td>
                    <td>
                      {personName(people, sheet.testedBy)}
                      {sheet.simulated && <span className="block soft">simulated bench</span>}
                    </td>
                    <td className="num">
                      {whenWords(sheet.enteredAt)}
                      {sheet.corrections.length > 0 && <span className="block soft">corrected</span>}
                      {sheet.aside !== null && <span className="block soft">set aside</span>}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </LabStanding>
    </LabFrame>
  );
}
