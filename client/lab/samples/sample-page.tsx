/** One sample: where it stands, logging it, its label, who has it, its retained portion. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';
import { formatTonnes } from '../../format/format.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { type Lab, useLab, workingLot } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { GoButton } from '../go-button.tsx';
import { LabStanding } from '../standing.tsx';
import { daysBetween, holderOf, isTested } from '../today/agenda.ts';
import { personName, SAMPLE_SHAPE, whenWords } from '../words.ts';
import { newSheetPath, nextToTest } from '../worksheets/paths.ts';
import { CorrectSample } from './correct-sample.tsx';
import { HandOver } from './hand-over.tsx';
import { LogForm } from './log-form.tsx';

export function SamplePage({ lotId, n }: { readonly lotId: string; readonly n: number }) {
  const lab = useLab();
  const lot = workingLot(lab.view, lotId);
  const sample = lot?.samples.find((one) => one.n === n) ?? null;
  return (
    <LabFrame title="Lab">
      <LabStanding lab={lab}>
        {lot === null || sample === null ? (
          <p className="card empty">
            The lab’s book shows no sample {n} of lot {lotId}. Lots decided long ago are found under{' '}
            <Link href={`/lab/lots/${lotId}`}>their own page</Link>.
          </p>
        ) : (
          <Sample lab={lab} lot={lot} sample={sample} />
        )}
      </LabStanding>
    </LabFrame>
  );
}

function Sample({
  lab,
  lot,
  sample,
}: {
  readonly lab: Lab;
  readonly lot: LabLot;
  readonly sample: LabSample;
}) {
  const people = useLive((live) => live.people);
  const [justLogged, setJustLogged] = useState(false);
  const after = afterLogging(lot, sample);
  const spec = lab.view.specifications.find(({ id }) => id === lot.specification) ?? null;
  const usualKg = (spec?.sampleKg as { readonly [test: string]: number } | undefined)?.[sample.test] ?? null;
  const toLog =
    sample.state === 'taken' ||
    sample.state === 'missed' ||
    (sample.state === 'not reached' && lot.closedAt !== null);
  return (
    <article className="stack" aria-labelledby="sample-head">
      <div className="lot-head">
        <h2 id="sample-head">
          Lot {lot.lot}, sample {sample.n}: {sample.test}
        </h2>
        <span
          className={sample.state === 'missed' || sample.state === 'due' ? 'lot-state wants' : 'lot-state'}
        >
          <Mark shape={SAMPLE_SHAPE[sample.state]} />
          {sample.state}
        </span>
        <Link className="button to-right" href={`/lab/lots/${lot.lot}`}>
          The whole lot
        </Link>
      </div>
      <section className="card">
        <dl className="facts">
          <Fact name="Drawn in">
            part {sample.part} of {sample.ofParts} of the lot
            {sample.atKg !== null && `, at ${formatTonnes(sample.atKg)}`}
          </Fact>
          <Fact name="Taken">
            {sample.takenAt === null
              ? 'not yet'
              : `${whenWords(sample.takenAt)} by ${personName(people, sample.takenBy)}${sample.batch === null ? '' : `, batch ${sample.batch}`}`}
          </Fact>
          {sample.substitute !== null && (
            <Fact name="Taken in its place">
              from the {sample.substitute.source}
              {sample.substitute.ofSample !== null && ` of sample ${sample.substitute.ofSample}`}:{' '}
              {sample.substitute.reason}
            </Fact>
          )}
          {sample.massKg !== null && (
            <Fact name="Mass">
              <span className="num">{sample.massKg} kg</span> in {sample.container}, of this{' '}
              <span className="num">{sample.retainedKg} kg</span> kept back
            </Fact>
          )}
          {sample.label !== null && (
            <Fact name="Label">
              <span className="num">{sample.label}</span>
            </Fact>
          )}
          {sample.discardOn !== null && (
            <Fact name="Retained portion">
              {sample.discarded ? 'thrown away' : `kept until ${whenWords(sample.discardOn)}`}
            </Fact>
          )}
          <Fact name="In the hands of">{personName(people, holderOf(sample))}</Fact>
        </dl>
      </section>
      {sample.state === 'due' && <TakeIt sample={sample} />}
      {toLog && (
        <section className="card stack" aria-labelledby="log-head">
          <h3 id="log-head">
            {sample.state === 'taken' ? 'Log it' : `It was ${sample.state}: put another in its place`}
          </h3>
          <LogForm
            lab={lab}
            lot={lot.lot}
            sample={sample}
            usualKg={usualKg}
            onDone={() => setJustLogged(true)}
          />
        </section>
      )}
      {sample.state === 'logged' && (
        <>
          <div className="row">
            {justLogged ? (
              <GoButton words={after.words} path={after.path} />
            ) : (
              !isTested(lot, sample.n) && (
                <Link className="button primary" href={newSheetPath(lot.lot, sample)}>
                  Worksheet for this sample
                </Link>
              )
            )}
            <a className="button" href={`/api/lab/labels?lot=${lot.lot}`} target="_blank" rel="noreferrer">
              Labels of the lot (PDF)
            </a>
          </div>
          <HandOver lab={lab} lot={lot.lot} sample={sample} />
          <Discard lab={lab} lot={lot.lot} sample={sample} />
          <CorrectSample key={sample.corrections.length} lab={lab} lot={lot.lot} sample={sample} />
        </>
      )}
      {sample.corrections.length > 0 && (
        <section className="card stack">
          <h3>Corrections</h3>
          {sample.corrections.map((one) => (
            <p key={one.at}>
              {whenWords(one.at)}, {personName(people, one.by)}:{' '}
              {one.changes.map(({ field, was, now }) => (
                <span key={field}>
                  {field} <del>{String(was)}</del> {String(now)}.{' '}
                </span>
              ))}
              {one.reason}
            </p>
          ))}
        </section>
      )}
    </article>
  );
}

/** The next sample of the lot that waits to be logged, else the first worksheet. */
function afterLogging(lot: LabLot, sample: LabSample): { readonly words: string; readonly path: string } {
  const waiting = lot.samples.filter(({ state, n }) => state === 'taken' && n !== sample.n);
  const next = waiting.find(({ n }) => n > sample.n) ?? waiting[0];
  if (next !== undefined)
    return {
      words: `Log the next: sample ${next.n}, ${next.test}`,
      path: `/lab/samples/${lot.lot}/${next.n}`,
    };
  const first = nextToTest(lot) ?? sample;
  return { words: `Worksheet: sample ${first.n}, ${first.test}`, path: newSheetPath(lot.lot, first) };
}

const Fact = ({ name, children }: { readonly name: string; readonly children: React.ReactNode }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

/** The same prompts as on the Line page, all that are due: several may fall on one discharge. */
const TakeIt = ({ sample }: { readonly sample: LabSample }) => (
  <section className="card stack take-it">
    <p>
      <strong>Take it as the batch is discharged</strong>
      {sample.batch !== null && ` (batch ${sample.batch})`}, from the full width of the stream as it falls.
      Keep clear of the gate and of the loader. Confirm it in the line at the top of this page.
    </p>
  </section>
);

function Discard({
  lab,
  lot,
  sample,
}: {
  readonly lab: Lab;
  readonly lot: string;
  readonly sample: LabSample;
}) {
  const [sure, setSure] = useState(false);
  const asked = useCommand();
  if (sample.discarded || (sample.retainedKg ?? 0) === 0 || sample.discardOn === null) return null;
  const early = daysBetween(lab.at, sample.discardOn) > 0;
  return (
    <section className="card stack" aria-label="Retained portion">
      <div className="row">
        <button type="button" className="button" onClick={() => setSure(true)}>
          Throw the retained portion away
        </button>
        {early && (
          <span className="soft">
            Its date is {whenWords(sample.discardOn)}; before it a reason is wanted.
          </span>
        )}
      </div>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {sure && (
        <ConfirmDialog
          title="Throw the retained portion away?"
          words="No retest of this sample will be possible afterwards."
          go="It is thrown away"
          danger={early}
          needsReason={early}
          onClose={() => setSure(false)}
          onGo={(reason) => {
            setSure(false);
            void asked.ask(
              () =>
                lab.ask({
                  do: 'discardRetained',
                  lot,
                  sample: sample.n,
                  ...(early ? { reason } : {}),
                }),
              'Thrown away, and written down.',
            );
          }}
        />
      )}
    </section>
  );
}
