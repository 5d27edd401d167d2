/** A recall drill: find every patch that holds some of a delivery, the clock running; scored against the truth and kept. */

import { useEffect, useState } from 'react';
import type { TraceFrom } from '../../../machines/yard/trace/traced.types.ts';
import { formatCountdown, plural } from '../../format/format.ts';
import { CONSOLE_ID } from '../../live/line.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { PersonName } from '../../parts/person-name.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { Search } from './search.tsx';
import { useRecalls } from './use-recalls.ts';
import { timeWords } from './words.ts';

type Candidate = { readonly patch: string; readonly place: string; readonly at: string };
type Started = {
  readonly ok: true;
  readonly drill: string;
  readonly words: string;
  readonly patches: readonly Candidate[];
};
type Done = {
  readonly ok: true;
  readonly seconds: number;
  readonly score: number;
  readonly truth: readonly string[];
  readonly missed: readonly string[];
  readonly wrong: readonly string[];
};
type No = { readonly ok: false; readonly because: readonly string[] };

const NO_SERVER: No = {
  ok: false,
  because: ['The server does not answer: see whether the program still runs.'],
};

async function post<T>(path: string, body: unknown): Promise<T | No> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    const value = (await response.json()) as T | { because?: readonly string[] };
    if (response.ok) return value as T;
    return { ok: false, because: (value as No).because ?? [`The server answered ${response.status}.`] };
  } catch {
    return NO_SERVER;
  }
}

/** Seconds since the drill began; the server keeps the time that counts. */
function Clock({ sinceMs }: { readonly sinceMs: number }) {
  const [nowMs, setNowMs] = useState(() => performance.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(performance.now()), 500);
    return () => clearInterval(timer);
  }, []);
  return (
    <span className="tr-clock num" role="timer" aria-label="Time since the drill began">
      {formatCountdown(Math.max(0, nowMs - sinceMs) / 1000)}
    </span>
  );
}

function Result({
  done,
  words,
  places,
}: {
  readonly done: Done;
  readonly words: string;
  readonly places: ReadonlyMap<string, string>;
}) {
  const named = (patch: string) =>
    `${patch}${places.get(patch) === undefined ? '' : `, ${places.get(patch)}`}`;
  const found = done.truth.length - done.missed.length;
  return (
    <section className="card stack" role="status">
      <h2>
        Score {done.score}
        <span className="soft"> of 100, in {formatCountdown(done.seconds)}</span>
      </h2>
      <p>
        {words}: {found} of {plural(done.truth.length, 'patch', 'patches')} found
        {done.wrong.length === 0 ? '' : `, ${done.wrong.length} ticked that hold none of it`}. It is kept in
        the record.
      </p>
      {done.missed.length > 0 && (
        <div>
          <h3>
            <Mark shape="triangle" /> Missed
          </h3>
          <ul>
            {done.missed.map((patch) => (
              <li key={patch}>{named(patch)}</li>
            ))}
          </ul>
        </div>
      )}
      {done.wrong.length > 0 && (
        <div>
          <h3>
            <Mark shape="ring" /> Ticked, and holds none of it
          </h3>
          <ul>
            {done.wrong.map((patch) => (
              <li key={patch}>{named(patch)}</li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}

export function DrillPage() {
  const me = useLive((live) => live.me);
  const { view } = useRecalls();
  const [started, setStarted] = useState<(Started & { readonly sinceMs: number }) | null>(null);
  const [done, setDone] = useState<Done | null>(null);
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [refusal, setRefusal] = useState<readonly string[] | null>(null);
  const by = me === null ? null : { person: me.id, console: CONSOLE_ID };

  const begin = async (from: TraceFrom): Promise<void> => {
    setRefusal(null);
    if (by === null) return setRefusal(['Say who you are first (top of the page).']);
    const answer = await post<Started>('/api/trace/drills', { by, from });
    if (!answer.ok) return setRefusal(answer.because);
    setDone(null);
    setTicked(new Set());
    setStarted({ ...answer, sinceMs: performance.now() });
  };
  const end = async (): Promise<void> => {
    if (started === null || by === null) return;
    const answer = await post<Done>(`/api/trace/drills/${started.drill}`, { by, ticked: [...ticked] });
    if (!answer.ok) return setRefusal(answer.because);
    setDone(answer);
  };
  const tick = (patch: string): void =>
    setTicked((now) => {
      const next = new Set(now);
      if (!next.delete(patch)) next.add(patch);
      return next;
    });
  const places = new Map(started?.patches.map(({ patch, place }) => [patch, place]));
  const isRunning = started !== null && done === null;

  return (
    <>
      <section className="card stack tr-ask">
        {isRunning ? (
          <div className="tr-head">
            <h2>
              Find every patch with some of: <strong>{started.words}</strong>
            </h2>
            <Clock sinceMs={started.sinceMs} />
          </div>
        ) : (
          <>
            <h2>Recall drill</h2>
            <p>
              Something was bad. Find every patch that may hold some of it, from tickets, lots and loads as
              you would on the day, and tick it. The clock runs from the moment you choose; each patch ticked
              that holds none of it takes away as much as a right one gives.
            </p>
            <Search
              label="What was bad"
              kinds={['delivery', 'batch', 'lot', 'load', 'operator', 'scale']}
              onChoose={(from) => void begin(from)}
            />
          </>
        )}
        <Refusal because={refusal} onClose={() => setRefusal(null)} />
      </section>
      {done !== null && started !== null && <Result done={done} words={started.words} places={places} />}
      {isRunning && (
        <section className="card stack" aria-label="Patches to choose from">
          <div className="tr-head">
            <span>
              <strong>{ticked.size}</strong> of {started.patches.length} ticked
            </span>
            <button type="button" className="button primary" onClick={() => void end()}>
              I have found them all
            </button>
          </div>
          <ul className="tr-candidates">
            {started.patches.map(({ patch, place, at }) => (
              <li key={patch}>
                <label>
                  <input type="checkbox" checked={ticked.has(patch)} onChange={() => tick(patch)} />
                  <span className="tr-id">{patch}</span>
                  <span>{place}</span>
                  <span className="soft num">{timeWords(at)}</span>
                </label>
              </li>
            ))}
          </ul>
        </section>
      )}
      {!isRunning && view !== null && view.drills.length > 0 && (
        <section className="card stack" aria-labelledby="tr-drills">
          <h2 id="tr-drills">Drills so far</h2>
          <div className="tr-scroll">
            <table className="tr-table">
              <thead>
                <tr>
                  <th scope="col">When</th>
                  <th scope="col">Who</th>
                  <th scope="col">Of</th>
                  <th scope="col" className="num">
                    Found
                  </th>
                  <th scope="col" className="num">
                    Wrong
                  </th>
                  <th scope="col" className="num">
                    Time
                  </th>
                  <th scope="col" className="num">
                    Score
                  </th>
                </tr>
              </thead>
              <tbody>
                {view.drills.map((one, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two drills may be alike in every word
                  <tr key={i}>
                    <td className="num">{timeWords(one.at)}</td>
                    <td>
                      <PersonName id={one.by} />
                    </td>
                    <td>{one.words}</td>
                    <td className="num">
                      {one.patches - one.missed.length} of {one.patches}
                    </td>
                    <td className="num">{one.wrong.length}</td>
                    <td className="num">{formatCountdown(one.seconds)}</td>
                    <td className="num">{one.score}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </section>
      )}
    </>
  );
}
