/** Entering one worksheet: the form, the simulated bench, the steps, and what comes after. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';
import type { Sheet } from '../../../machines/lab/worksheets/index.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { contextOf, specOf } from '../book-like.ts';
import type { Lab } from '../data.ts';
import { GoButton } from '../go-button.tsx';
import { propertyWords, valueWords } from '../words.ts';
import { readBench } from './bench.ts';
import { newSheetPath, nextToTest } from './paths.ts';
import { keepSettings, lastSettings } from './settings.ts';
import { SheetForm } from './sheet-form.tsx';
import { TimedSteps } from './timed-steps.tsx';
import { readingsToSend } from './typing.ts';
import { useSheet } from './use-sheet.ts';

export function EnterSheet({
  lab,
  sheet,
  lot,
  sample,
  subject,
}: {
  readonly lab: Lab;
  readonly sheet: Sheet;
  readonly lot: LabLot | null;
  readonly sample: LabSample | null;
  readonly subject: { readonly kind: 'bin' | 'delivery' | 'material'; readonly id: string } | null;
}) {
  const simulatedPlant = useLive((live) => live.run?.simulated ?? false);
  const spec = specOf(lab.view, lot);
  const context = useMemo(
    () => contextOf(lab.view, lot, sample?.n ?? null, lab.at),
    [lab.view, lot, sample?.n, lab.at],
  );
  const of = lot !== null && sample !== null ? `${lot.lot}/${sample.n}` : `${subject?.kind}/${subject?.id}`;
  const key = `${sheet.id}/${of}`;
  const [first] = useState(() => lastSettings(sheet.id));
  const state = useSheet(sheet, context, key, first);
  const asked = useCommand();
  const bench = useCommand();
  const [entered, setEntered] = useState(false);
  const form = useRef<HTMLFormElement>(null);

  useEffect(() => {
    if (entered) return;
    const first = form.current?.querySelector<HTMLElement>('[data-field]');
    first?.focus();
    if (first instanceof HTMLInputElement) first.select();
  }, [entered]);

  const enter = async () => {
    state.showAll();
    if (!state.worked.ok) {
      const first = state.worked.because.find(({ field }) => field !== null)?.field;
      const target =
        first === undefined || first === null
          ? null
          : document.querySelector(`[data-field="${CSS.escape(first)}"]`);
      if (target instanceof HTMLElement) target.focus();
      asked.explain(state.worked.because.slice(0, 4).map(({ message }) => message));
      return;
    }
    const done = await asked.ask(
      () =>
        lab.ask({
          do: 'enterWorksheet',
          sheet: sheet.id,
          lot: lot?.lot ?? null,
          sample: sample?.n ?? null,
          subject,
          readings: readingsToSend(state.fields, { ...state.readings, ...state.whole }),
          balance: '',
          simulated: state.simulated,
          remark: '',
        }),
      `${sheet.title} is in the book.`,
    );
    if (done) {
      keepSettings(sheet.id, state.readings);
      setEntered(true);
      state.forget();
    }
  };
  const read = () =>
    bench.ask(async () => {
      const answer = await readBench(lot?.lot ?? '', sample?.n ?? 0, sheet.id);
      if (answer.ok) state.fill(answer.readings, true);
      return answer.ok ? { ok: true as const } : answer;
    }, 'The simulated bench has been read.');

  if (entered) {
    const next = lot === null ? null : nextToTest(lot, sample?.n ?? 0);
    const newest = (lot?.worksheets ?? lab.view.others).at(lot === null ? 0 : -1);
    return (
      <section className="card stack sheet-done" aria-labelledby="done-head">
        <h3 id="done-head">
          <Mark shape="check" /> In the book{newest === undefined ? '' : ` as ${newest.id}`}
        </h3>
        {newest !== undefined && (
          <dl className="results">
            {newest.results.map(({ property, value }) => (
              <div key={property}>
                <dt>{propertyWords(property)}</dt>
                <dd className="num">{valueWords(property, value)}</dd>
              </div>
            ))}
          </dl>
        )}
        <div className="row">
          {lot !== null && next !== null && (
            <GoButton
              words={`Next sheet of this lot: sample ${next.n}, ${next.test}`}
              path={newSheetPath(lot.lot, next)}
            />
          )}
          {lot !== null &&
            (next === null ? (
              <GoButton
                words={`All logged samples of lot ${lot.lot} have their sheet: open the lot`}
                path={`/lab/lots/${lot.lot}`}
              />
            ) : (
              <Link className="button" href={`/lab/lots/${lot.lot}`}>
                The lot
              </Link>
            ))}
          {newest !== undefined && (
            <Link className="button" href={`/lab/worksheets/${newest.id}`}>
              Open the sheet: photographs, corrections
            </Link>
          )}
        </div>
      </section>
    );
  }

  return (
    <form
      ref={form}
      className="stack"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      {sheet.cautions.length > 0 && (
        <ul className="bullets cautions-line">
          {sheet.cautions.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
      <SheetForm
        sheet={sheet}
        spec={spec}
        state={state}
        nowAt={lab.at}
        onEnd={() => void enter()}
        beside={
          <TimedSteps
            steps={sheet.steps}
            id={key}
            of={`${sheet.title.toLowerCase()}, ${
              lot !== null && sample !== null
                ? `lot ${lot.lot}, sample ${sample.n}`
                : `${subject?.kind} ${subject?.id}`
            }`}
            path={
              lot !== null && sample !== null
                ? newSheetPath(lot.lot, sample)
                : `/lab/worksheets/new?${new URLSearchParams({ sheet: sheet.id, kind: subject?.kind ?? '', id: subject?.id ?? '' })}`
            }
          />
        }
      >
        {state.isDraft && (
          <p className="draft-words">
            <Mark shape="ring" />
            Draft on this console only{state.fromDraft ? ', from an earlier visit' : ''}: not yet in the book
            {state.simulated ? '; readings are simulated' : ''}.
          </p>
        )}
        <div className="row">
          <button type="submit" className="button primary" aria-busy={asked.waiting}>
            Enter the sheet
          </button>
          {simulatedPlant && lot !== null && (
            <button type="button" className="button" aria-busy={bench.waiting} onClick={() => void read()}>
              Read the simulated bench
            </button>
          )}
          {state.isDraft && (
            <button type="button" className="button" onClick={state.forget}>
              Drop the draft
            </button>
          )}
        </div>
        <Refusal because={bench.refusal} onClose={bench.clear} />
        <Refusal because={asked.refusal} onClose={asked.clear} />
        <p className="soft-line">
          Enter or ↓ goes on, Shift and Enter or ↑ back; Enter on the last field enters the sheet.
        </p>
      </SheetForm>
    </form>
  );
}
