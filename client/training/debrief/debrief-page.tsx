/** The debrief of an attempt: what was expected and done, the truth behind the instruments, the score and its reasons. */
import { useId, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Person } from '../../../machines/scenario/people.schema.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { type Begun, linePath, startDrill } from '../api.ts';
import { useGot } from '../use-got.ts';
import { capital, clockOfS, TRAINERS, TRAINING_ONLY, whenOf } from '../words.ts';
import { Lanes } from './lanes.tsx';
import { MomentView } from './moment.tsx';
import { Plot } from './plot.tsx';
import { Twin } from './twin.tsx';
import type { KeptDebrief } from './types.ts';

const MS_A_TICK = 100;

function Head({ debrief }: { readonly debrief: KeptDebrief }) {
  const { attempt } = debrief;
  return (
    <section
      className={debrief.passed ? 'card verdict-card' : 'card verdict-card failed'}
      aria-label="Result"
    >
      <p className="verdict-score num">
        {debrief.score}
        <span className="soft"> of 100</span>
      </p>
      <div className="stack">
        <p className="verdict-words">
          <Mark shape={debrief.passed ? 'check' : 'diamond'} /> {debrief.verdict}
        </p>
        <p className="soft">
          {debrief.trainee.name} · {whenOf(attempt.endedWall)} ·{' '}
          {clockOfS((debrief.endMs - debrief.startMs) / 1000)} in the drill, {debrief.ended} · seed{' '}
          <span className="num">{attempt.seed}</span> ·{' '}
          {attempt.hints ? `hints allowed, ${debrief.hints.length} taken` : 'no hints'}
          {attempt.returns > 0 &&
            ` · turned back ${attempt.returns === 1 ? 'once' : `${attempt.returns} times`}`}
          {attempt.from !== null && ' · begun from a moment of an earlier attempt'}
        </p>
        <p className="soft">{TRAINING_ONLY}</p>
      </div>
    </section>
  );
}

function Competencies({ debrief }: { readonly debrief: KeptDebrief }) {
  return (
    <section className="card stack" aria-labelledby="comp-h">
      <h2 id="comp-h">Score by competency</h2>
      <ul className="competencies">
        {debrief.competencies.map((one) => (
          <li key={one.name}>
            <h3>
              {capital(one.name)}{' '}
              <span className="num soft">{one.of === 0 ? 'points lost' : `${one.score} of 100`}</span>
            </h3>
            <div className="bar" aria-hidden="true">
              <i style={{ width: `${one.score}%` }} />
            </div>
            <ul className="bullets">
              {one.reasons.map((reason) => (
                <li key={reason}>{reason}</li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Truth({ debrief, atMs }: { readonly debrief: KeptDebrief; readonly atMs: number }) {
  if (debrief.truth.length === 0) return null;
  const xWords = (ms: number) => clockOfS((ms - debrief.startMs) / 1000);
  return (
    <section className="card stack" aria-labelledby="truth-h">
      <h2 id="truth-h">The truth behind the instruments</h2>
      <p className="soft">Shaded while the instrument was at fault. Times are minutes into the drill.</p>
      <div className="truths">
        {debrief.truth.map((trace) => (
          <figure key={trace.tag}>
            <figcaption>
              <strong>{trace.label}</strong>{' '}
              <span className="soft">{trace.lied.map(({ fault }) => fault).join(', ')}</span>
            </figcaption>
            <Plot
              label={`${trace.label}: what it read against what was so`}
              unit={trace.unit}
              series={[
                {
                  name: 'the truth',
                  tone: 'a',
                  points: trace.samples.map((one) => ({ x: one.atMs, y: one.truth })),
                },
                {
                  name: 'what it read',
                  tone: 'b',
                  points: trace.samples.map((one) => ({ x: one.atMs, y: one.reading })),
                },
              ]}
              fromX={debrief.startMs}
              toX={debrief.endMs}
              shaded={trace.lied.map(({ fromMs, toMs }) => ({ from: fromMs, to: toMs ?? debrief.endMs }))}
              atX={atMs}
              xWords={xWords}
            />
          </figure>
        ))}
      </div>
    </section>
  );
}

function DoneList({ debrief }: { readonly debrief: KeptDebrief }) {
  const { startMs } = debrief;
  const [all, setAll] = useState(false);
  const shown = all ? debrief.done : debrief.done.slice(0, 12);
  return (
    <section className="card stack" aria-labelledby="done-h">
      <h2 id="done-h">What was done and when</h2>
      {debrief.done.length === 0 && <p className="soft">Nothing was done.</p>}
      <ul className="said">
        {shown.map((one, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two things may be done in one moment, and the list never changes
          <li key={i}>
            <span className="num soft">{clockOfS((one.atMs - startMs) / 1000)}</span>
            <span>
              {one.text} <span className="soft">{one.who}</span>
              {!one.accepted && (
                <span className="warn-words">
                  {' '}
                  <Mark shape="triangle" /> refused: {one.because.join(' ')}
                </span>
              )}
            </span>
          </li>
        ))}
      </ul>
      {debrief.done.length > 12 && (
        <button type="button" className="button" onClick={() => setAll(!all)}>
          {all ? 'Show fewer' : `Show all ${debrief.done.length}`}
        </button>
      )}
      {debrief.messages.length + debrief.hints.length > 0 && (
        <>
          <h3>Messages and hints</h3>
          <ul className="said">
            {debrief.messages.map((one) => (
              <li key={`${one.atMs}${one.text}`}>
                <span className="num soft">{clockOfS((one.atMs - startMs) / 1000)}</span>
                <span>
                  <strong>{one.from}:</strong> {one.text}
                  {one.answer !== null && <span className="soft"> Answered: {one.answer}</span>}
                </span>
              </li>
            ))}
            {debrief.hints.map((one) => (
              <li key={`${one.atMs}${one.text}`}>
                <span className="num soft">{clockOfS((one.atMs - startMs) / 1000)}</span>
                <span>
                  <strong>Hint</strong> (−{one.cost}): {one.text}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Body({
  debrief,
  me,
  session,
}: {
  readonly debrief: KeptDebrief;
  readonly me: Person;
  readonly session: string;
}) {
  const { attempt, startMs, endMs } = debrief;
  const [atMs, setAtMs] = useState(startMs);
  const [looked, setLooked] = useState<number | null>(null);
  const [, go] = useLocation();
  const asked = useCommand();
  const id = useId();
  const leads = TRAINERS.includes(me.role);
  const mayRepeat = leads || me.id === attempt.trainee.id;
  const tick = Math.round(atMs / MS_A_TICK);
  const plant = useLive((live) => live.view?.plant.limits ?? null);
  const begin = (from: { session: string; tick: number } | null, seed: number | null) => {
    let begun: Begun | null = null;
    const start = async () => {
      begun = await startDrill({
        drill: attempt.drill,
        trainee: attempt.trainee.id,
        hints: attempt.hints,
        frozen: from !== null,
        ...(from === null ? {} : { from }),
        ...(seed === null ? {} : { seed }),
      });
      return begun.ok ? ({ ok: true } as const) : begun;
    };
    void asked.ask(start, 'A new attempt has begun.').then((ok) => {
      if (!ok || begun === null || !begun.ok) return;
      if (me.id === attempt.trainee.id) location.assign(linePath(begun.session));
      else go(`/training/session/${begun.session}`);
    });
  };
  const into = (ms: number) => clockOfS((ms - startMs) / 1000);
  return (
    <>
      <Head debrief={debrief} />
      <div className="row">
        <a
          className="button"
          href={`/api/training/sessions/${session}/certificate.pdf?person=${encodeURIComponent(me.id)}`}
          target="_blank"
          rel="noreferrer"
        >
          Page to print (PDF)
        </a>
        {mayRepeat && (
          <>
            <button type="button" className="button" onClick={() => begin(null, null)}>
              Repeat with another seed
            </button>
            <button type="button" className="button" onClick={() => begin(null, attempt.seed)}>
              Repeat with the same seed
            </button>
          </>
        )}
        <Link className="button" href={`/training/history/${attempt.trainee.id}`}>
          All attempts of {attempt.trainee.name}
        </Link>
      </div>
      <section className="card stack" aria-labelledby={`${id}-h`}>
        <h2 id={`${id}-h`}>Expected, done, and what went wrong</h2>
        <div className="scrub">
          <label htmlFor={`${id}-at`}>
            Moment <strong className="num">{into(atMs)}</strong>
          </label>
          <input
            id={`${id}-at`}
            type="range"
            min={startMs}
            max={Math.max(startMs + 1, endMs)}
            step={1000}
            value={atMs}
            aria-valuetext={`${into(atMs)} into the drill`}
            onChange={(event) => setAtMs(Number(event.target.value))}
          />
          <div className="row scrub-acts">
            <button type="button" className="button" onClick={() => setLooked(tick)}>
              Show the console then
            </button>
            {mayRepeat && (
              <button type="button" className="button primary" onClick={() => begin({ session, tick }, null)}>
                Try again from here
              </button>
            )}
          </div>
        </div>
        <Refusal because={asked.refusal} onClose={asked.clear} />
        <Lanes debrief={debrief} atMs={atMs} />
      </section>
      {looked !== null && (
        <section className="card stack" aria-labelledby={`${id}-c`}>
          <div className="page-head">
            <h2 id={`${id}-c`}>The console at {into(looked * MS_A_TICK)}</h2>
            <button type="button" className="button page-back" onClick={() => setLooked(null)}>
              Close
            </button>
          </div>
          <MomentView session={session} tick={looked} me={me} trainee={attempt.trainee.id} />
        </section>
      )}
      <Competencies debrief={debrief} />
      <Truth debrief={debrief} atMs={atMs} />
      {debrief.twin === null ? (
        <section className="card">
          <h2>Without the interlock</h2>
          <p className="soft">The flame interlock never had to step in, so there is nothing to compare.</p>
        </section>
      ) : (
        <Twin
          twin={debrief.twin}
          atMs={atMs}
          xWords={into}
          limits={
            plant === null
              ? []
              : [
                  { y: plant.vapourWarnLelPct, words: `warning ${plant.vapourWarnLelPct} %` },
                  { y: plant.vapourTripLelPct, words: `trip ${plant.vapourTripLelPct} %` },
                ]
          }
        />
      )}
      <DoneList debrief={debrief} />
      <p className="soft">Where times and limits come from: {debrief.drill.basis}</p>
    </>
  );
}

export function DebriefPage({ session }: { readonly session: string }) {
  const me = useLive((live) => live.me);
  const got = useGot<KeptDebrief>(
    me === null ? null : `/api/training/sessions/${session}/debrief?person=${encodeURIComponent(me.id)}`,
  );
  const debrief = got.value;
  return (
    <div className="page wide training debrief">
      <div className="page-head">
        <h1>Debrief</h1>
        {debrief !== null && <p className="debrief-name">{debrief.drill.name}</p>}
        <Link href="/training" className="page-back">
          All drills
        </Link>
      </div>
      {debrief !== null && <p className="soft">{debrief.drill.teaches}</p>}
      {me === null && <p className="card">Say who you are at the top of the page.</p>}
      {got.because !== null && (
        <div className="card row">
          <p>{got.because.join(' ')}</p>
          <button type="button" className="button" onClick={got.again}>
            Look again
          </button>
        </div>
      )}
      {me !== null && got.because === null && debrief === null && (
        <p className="card soft">Fetching the debrief…</p>
      )}
      {me !== null && debrief !== null && <Body key={session} debrief={debrief} me={me} session={session} />}
    </div>
  );
}
