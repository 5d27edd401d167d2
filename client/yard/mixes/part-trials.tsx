/** Trial batches: what was found against what the sheet predicts, recorded and corrected with a reason. */
import { type FormEvent, useId, useState } from 'react';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { TrialResult } from '../../../machines/yard/mixes/facts.ts';
import type { MixSheet } from '../../../machines/yard/mixes/sheet.ts';
import type { Trial } from '../../../machines/yard/mixes/state.ts';
import { predictions } from '../../../machines/yard/mixes/trial-predictions.ts';
import type { MixView } from '../../../machines/yard/mixes/view.ts';
import { useLive } from '../../live/store.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { LotsFound } from './lots-found.tsx';
import { NumberField } from './number-field.tsx';
import type { MixesHere } from './use-mixes.ts';
import { figure, nameOf, whenWords } from './words.ts';

type Row = {
  readonly property: string;
  readonly unit: string;
  readonly words: string;
  readonly predicted: number | null;
};
type Asked = { readonly trial: Trial } | 'new' | null;

function TrialDialog({
  mix,
  version,
  rows,
  trial,
  book,
  onClose,
}: {
  readonly mix: MixView;
  readonly version: number;
  readonly rows: readonly Row[];
  readonly trial: Trial | null;
  readonly book: MixesHere;
  readonly onClose: () => void;
}) {
  const [found, setFound] = useState<{ readonly [property: string]: string }>(() =>
    Object.fromEntries((trial?.results ?? []).map((one) => [one.property, String(one.measured)])),
  );
  const [batch, setBatch] = useState(trial?.batch ?? '');
  const [kg, setKg] = useState(trial?.kg ?? 25);
  const [note, setNote] = useState(trial?.note ?? '');
  const [reason, setReason] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const id = useId();
  const results = (): TrialResult[] | string => {
    const made: TrialResult[] = [];
    for (const row of rows) {
      const text = (found[row.property] ?? '').trim().replace(',', '.');
      if (text === '') continue;
      const measured = Number(text);
      if (!Number.isFinite(measured)) return `${row.words}: write a number without its unit.`;
      const before = trial?.results.find((one) => one.property === row.property);
      made.push({
        property: row.property,
        unit: row.unit,
        predicted: before === undefined ? row.predicted : before.predicted,
        measured,
      });
    }
    return made.length === 0 ? 'Write at least one figure that was found.' : made;
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const made = results();
    if (typeof made === 'string') return setWrong(made);
    setWrong(null);
    const done =
      trial === null
        ? await book.put(
            {
              do: 'recordTrial',
              mix: mix.id,
              version,
              batch: batch.trim() === '' ? null : batch.trim(),
              kg,
              results: made,
              note,
            },
            'The trial is recorded.',
          )
        : await book.put(
            { do: 'correctTrial', trial: trial.trial, results: made, reason },
            'The trial is corrected.',
          );
    if (done) onClose();
  };
  return (
    <Dialog
      title={trial === null ? `Trial of version ${version}` : `Correct trial ${trial.trial}`}
      onClose={onClose}
    >
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={wrong === null ? book.asked.refusal : [wrong]} onClose={() => setWrong(null)} />
        {trial === null && (
          <div className="mx-pair">
            <div className="field">
              <label htmlFor={`${id}-batch`}>Batch of the line, if it was one</label>
              <input
                id={`${id}-batch`}
                type="text"
                placeholder="260512-1/3"
                maxLength={40}
                value={batch}
                onChange={(event) => setBatch(event.target.value)}
              />
            </div>
            <NumberField label="Mass" unit="kg" value={kg} min={0.1} max={20_000} onChange={setKg} />
          </div>
        )}
        <table className="mx-table">
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col" className="num">
                Predicted
              </th>
              <th scope="col">Found</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.property}>
                <th scope="row" id={`${id}-${row.property}`}>
                  {row.words}
                </th>
                <td className="num soft">
                  {row.predicted === null ? '–' : `${figure(row.predicted)} ${row.unit}`}
                </td>
                <td>
                  <input
                    type="text"
                    inputMode="decimal"
                    className="num mx-short"
                    aria-labelledby={`${id}-${row.property}`}
                    value={found[row.property] ?? ''}
                    onChange={(event) => setFound({ ...found, [row.property]: event.target.value })}
                  />{' '}
                  {row.unit}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        {trial === null ? (
          <div className="field">
            <label htmlFor={`${id}-note`}>What was seen</label>
            <textarea
              id={`${id}-note`}
              rows={2}
              maxLength={300}
              value={note}
              onChange={(event) => setNote(event.target.value)}
            />
          </div>
        ) : (
          <div className="field">
            <label htmlFor={`${id}-reason`}>Why it is corrected, kept in the record</label>
            <input
              id={`${id}-reason`}
              type="text"
              maxLength={300}
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          </div>
        )}
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary">
            {trial === null ? 'Record the trial' : 'Correct it'}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

export function PartTrials({
  mix,
  sheet,
  content,
  book,
}: {
  readonly mix: MixView;
  readonly sheet: MixSheet;
  readonly content: Mix;
  readonly book: MixesHere;
}) {
  const people = useLive((live) => live.people);
  const [asked, setAsked] = useState<Asked>(null);
  const rows = predictions(sheet);
  const wordsOf = (property: string) => rows.find((row) => row.property === property)?.words ?? property;
  const known = mix.versions.some((one) => one.content.version === content.version);
  const open = (what: Exclude<Asked, null>) => {
    const why = book.whyNot(what === 'new' ? 'recordTrial' : 'correctTrial');
    if (why !== null) book.asked.explain([why]);
    else setAsked(what);
  };
  return (
    <section className="card stack" aria-labelledby="mx-trials">
      <div className="mx-head">
        <h2 id="mx-trials">Trials and lots</h2>
        <span className="row mx-head-acts">
          <button type="button" className="button" data-barred={!known} onClick={() => open('new')}>
            Record a trial of version {content.version}
          </button>
        </span>
      </div>
      {mix.trials.length === 0 ? (
        <p className="soft">
          No trial yet. Mix a small batch, test it, and write here what was found beside what this sheet
          predicts.
        </p>
      ) : (
        <ul className="stack">
          {mix.trials.map((trial) => (
            <li key={trial.trial} className="mx-trial">
              <div className="mx-head">
                <strong className="num">{trial.trial}</strong>
                <span className="soft">
                  version {trial.version}, {figure(trial.kg, 1)} kg
                  {trial.batch === null ? '' : `, batch ${trial.batch}`}; {nameOf(trial.by, people)},{' '}
                  {whenWords(trial.at)}
                </span>
                <span className="row mx-head-acts">
                  <button type="button" className="button quiet" onClick={() => open({ trial })}>
                    Correct
                  </button>
                </span>
              </div>
              <table className="mx-table">
                <thead>
                  <tr>
                    <th scope="col">Figure</th>
                    <th scope="col" className="num">
                      Predicted
                    </th>
                    <th scope="col" className="num">
                      Found
                    </th>
                    <th scope="col" className="num">
                      Differs by
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {trial.results.map((one) => (
                    <tr key={one.property}>
                      <th scope="row">{wordsOf(one.property)}</th>
                      <td className="num">{one.predicted === null ? '–' : figure(one.predicted)}</td>
                      <td className="num">
                        <strong>{figure(one.measured)}</strong> {one.unit}
                      </td>
                      <td className="num">
                        {one.predicted === null
                          ? '–'
                          : `${one.measured >= one.predicted ? '+' : ''}${figure(one.measured - one.predicted)}`}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
              {trial.note !== '' && <p>{trial.note}</p>}
              {trial.corrections.map((one) => (
                <p key={one.at + one.reason} className="soft">
                  Corrected by {nameOf(one.by, people)}, {whenWords(one.at)}: {one.reason}. Before:{' '}
                  {one.was
                    .map((was) => `${wordsOf(was.property)} ${figure(was.measured)} ${was.unit}`)
                    .join(', ')}
                  .
                </p>
              ))}
            </li>
          ))}
        </ul>
      )}
      <LotsFound mix={mix} blend={sheet.blend} version={content.version} />
      {asked !== null && (
        <TrialDialog
          mix={mix}
          version={content.version}
          rows={rows}
          trial={asked === 'new' ? null : asked.trial}
          book={book}
          onClose={() => setAsked(null)}
        />
      )}
    </section>
  );
}
