/** Tick causes, see elements: the interlock as it runs, on a page that needs no line and no server. */
import { useEffect, useRef, useState } from 'react';
import { burnerMayAdmitFuel } from '../../machines/charts/burner/burner.guards.ts';
import { isTripped } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { type Desk as DeskState, openDesk, PURGE_VOLUMES, passed, stateOfChart, withTick } from './desk.ts';
import { storyBetween } from './desk-story.ts';
import {
  type Acted,
  askFor,
  causesOf,
  lightBurner,
  purgeDrum,
  putOutBurner,
  resetBurner,
  resetTrip,
  stopAsking,
  titleOf,
} from './desk-view.ts';
import { Elements } from './Elements.tsx';
import { Matrix } from './Matrix.tsx';
import { TICK_GROUPS, type Tick } from './ticks.ts';

const STEP_MS = 200;
const LONGEST_STORY = 60;

type Told = { readonly n: number; readonly text: string };

export function Desk() {
  const [desk, setDesk] = useState<DeskState>(openDesk);
  const [story, setStory] = useState<readonly Told[]>([]);
  const [because, setBecause] = useState<readonly string[] | null>(null);
  const [done, setDone] = useState('');
  const count = useRef(0);
  const last = useRef(desk);

  const follow = (next: DeskState, also: readonly string[] = []) => {
    const told = [...also, ...storyBetween(last.current, next)].map((text) => {
      count.current += 1;
      return { n: count.current, text };
    });
    last.current = next;
    setDesk(next);
    if (told.length > 0) setStory((known) => [...told.reverse(), ...known].slice(0, LONGEST_STORY));
  };
  const act = ({ desk: next, because: reasons, done: words }: Acted, name: string) => {
    setBecause(reasons.length > 0 ? reasons : null);
    setDone(reasons.length > 0 ? '' : words);
    follow(next, reasons.length > 0 ? [`${name}: refused.`] : []);
  };
  const tick = (name: Tick, on: boolean) => {
    setBecause(null);
    setDone('');
    follow(withTick(last.current, name, on));
  };

  useEffect(() => {
    const timer = setInterval(() => {
      const next = passed(last.current, STEP_MS);
      if (next !== last.current) follow(next);
    }, STEP_MS);
    return () => clearInterval(timer);
  });

  const tripped = isTripped(stateOfChart(desk, 'interlock'));
  const fires = burnerMayAdmitFuel(stateOfChart(desk, 'burner'));
  return (
    <>
      <div className="desk">
        <section className="card stack" aria-labelledby="desk-causes">
          <h2 id="desk-causes">What is so</h2>
          {TICK_GROUPS.map(({ title, ticks }) => (
            <fieldset key={title} className="desk-ticks">
              <legend className="label">{title}</legend>
              {(Object.entries(ticks) as [Tick, string][]).map(([name, words]) => (
                <label key={name} className="check">
                  <input
                    type="checkbox"
                    className="hidden-words"
                    checked={desk.ticked.has(name)}
                    onChange={(event) => tick(name, event.target.checked)}
                  />
                  <span className="box">
                    <Mark shape="check" />
                  </span>
                  {words}
                </label>
              ))}
            </fieldset>
          ))}
        </section>
        <div className="stack">
          <section className="card stack" aria-labelledby="desk-try">
            <h2 id="desk-try">Try it</h2>
            <div className="row">
              {fires ? (
                <button type="button" className="button" onClick={() => act(putOutBurner(desk), 'Put out')}>
                  Put the burner out
                </button>
              ) : (
                <button
                  type="button"
                  className="button"
                  onClick={() => act(lightBurner(desk), 'Light the burner')}
                >
                  Light the burner
                </button>
              )}
              {(
                [
                  ['bucketValve', 'Open the binder valve', 'Shut the binder valve'],
                  ['cutbackFeed', 'Weigh cutback', 'Stop weighing cutback'],
                  ['heat', 'Heat the cutback tank', 'Stop heating'],
                ] as const
              ).map(([ask, on, off]) => (
                <button
                  key={ask}
                  type="button"
                  className="button"
                  onClick={() => act(desk.asks[ask] ? stopAsking(desk, ask) : askFor(desk, ask), on)}
                >
                  {desk.asks[ask] ? off : on}
                </button>
              ))}
              <button type="button" className="button" onClick={() => act(purgeDrum(desk), 'Purge the drum')}>
                Purge the drum
              </button>
              <button
                type="button"
                className="button"
                onClick={() => act(resetBurner(desk), 'Reset the burner')}
              >
                Reset the burner
              </button>
              <button
                type="button"
                className={tripped ? 'button primary' : 'button'}
                onClick={() => act(resetTrip(desk), 'Reset the trip')}
              >
                Reset the trip
              </button>
              <button
                type="button"
                className="button quiet"
                onClick={() => {
                  setBecause(null);
                  setDone('Everything is at rest again.');
                  setStory([]);
                  last.current = openDesk();
                  setDesk(last.current);
                }}
              >
                Begin again
              </button>
            </div>
            <div role="status">
              <Refusal because={because} onClose={() => setBecause(null)} />
              {done !== '' && <p>{done}</p>}
            </div>
          </section>
          <section
            className={tripped ? 'card stack desk-state tripped' : 'card stack desk-state'}
            aria-labelledby="desk-now"
          >
            <h2 id="desk-now">What the interlock does</h2>
            <p className="desk-trip">
              <Mark shape={tripped ? 'triangle' : 'dot'} />
              <strong>{tripped ? 'Tripped' : 'Watching'}</strong>
              <span>{tripped ? titleOf(desk, 'interlock') : 'No trip is latched.'}</span>
            </p>
            <p>
              Burner: {titleOf(desk, 'burner').toLowerCase()}. Purge:{' '}
              <span className="num">
                {desk.purgeVolumes.toFixed(1)} of {PURGE_VOLUMES}
              </span>{' '}
              volumes, faster here than any fan.
            </p>
            <Elements outputs={desk.outputs} causes={causesOf(desk)} />
          </section>
          <section className="card stack" aria-labelledby="desk-story">
            <h2 id="desk-story">What happened</h2>
            {story.length === 0 && (
              <p className="soft">
                Nothing yet. Light the burner, wait for its flame, then tick “Cutback mix in the pug mill”.
              </p>
            )}
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
            <ol className="desk-story" tabIndex={0} aria-label="Newest first">
              {story.map(({ n, text }) => (
                <li key={n}>
                  <span className="num soft">{n}</span> {text}
                </li>
              ))}
            </ol>
          </section>
        </div>
      </div>
      <section className="matrix-part a4" aria-labelledby="desk-matrix">
        <div className="lot-head">
          <h2 id="desk-matrix">Cause and effect</h2>
          <button type="button" className="button head-act no-print" onClick={() => window.print()}>
            Print the matrix
          </button>
        </div>
        <Matrix causes={causesOf(desk)} />
      </section>
    </>
  );
}
