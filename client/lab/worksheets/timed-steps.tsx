/** The steps of a test in order; those with a length have a clock that can be read from across the room. */
import { useEffect, useRef, useState } from 'react';
import type { Step } from '../../../machines/lab/worksheets/sheet.types.ts';
import { formatCountdown, spokenDuration } from '../../format/format.ts';
import { leftS, ring, setSound, startTimer, stopTimer, useTimers } from './timers.ts';
import { useNowMs } from './use-now.ts';
import './timers.css';

export function TimedSteps({
  steps,
  of,
  path,
  id,
}: {
  readonly steps: readonly Step[];
  /** What the test is of: "lot 260512-3, water resistance". */
  readonly of: string;
  readonly path: string;
  readonly id: string;
}) {
  const timers = useTimers().filter((timer) => timer.id.startsWith(`${id}#`));
  const now = useNowMs(timers.length > 0);
  const [sound, setSoundWanted] = useState(false);
  const list = useRef<HTMLOListElement>(null);
  const running = timers.map((timer) => timer.id).join();
  // Whoever starts a clock stands at the bench: what counts down must be in sight.
  useEffect(() => {
    if (running !== '') list.current?.querySelector('.running, .over')?.scrollIntoView({ block: 'nearest' });
  }, [running]);
  if (steps.length === 0) return null;
  return (
    <section className="card stack" aria-labelledby={`steps-${id}`}>
      <h3 id={`steps-${id}`}>Steps of the test</h3>
      <ol className="timed-steps" ref={list}>
        {steps.map((step, i) => {
          const key = `${id}#${i}`;
          const timer = timers.find((one) => one.id === key);
          const left = timer === undefined ? 0 : leftS(timer, now);
          const look = timer === undefined ? '' : left > 0 ? 'running' : 'over';
          return (
            <li key={step.title} className={`timed-step ${look}`}>
              <div>
                <strong>
                  {i + 1}. {step.title}
                </strong>
                {step.tempC !== undefined && <span className="num soft"> {step.tempC} °C</span>}
                <p>{step.instruction}</p>
              </div>
              {timer !== undefined && (
                <p
                  className="timed-figure num"
                  role="timer"
                  aria-label={`${step.title}: ${spokenDuration(Math.max(0, left))} left`}
                >
                  {left > 0 ? formatCountdown(left) : 'over'}
                </p>
              )}
              {step.seconds !== undefined && (
                <div className="row">
                  {timer === undefined ? (
                    <button
                      type="button"
                      className="button"
                      onClick={() =>
                        startTimer({
                          id: key,
                          of,
                          step: step.title,
                          path,
                          startedMs: Date.now(),
                          seconds: step.seconds ?? 0,
                          sound,
                        })
                      }
                    >
                      Start {spokenDuration(step.seconds)}
                    </button>
                  ) : (
                    <>
                      <button type="button" className="button" onClick={() => stopTimer(key)}>
                        {left > 0 ? 'Stop the clock' : 'Done'}
                      </button>
                      <button
                        type="button"
                        className="button"
                        aria-pressed={timer.sound}
                        onClick={() => setSound(key, !timer.sound)}
                      >
                        Sound {timer.sound ? 'on' : 'off'}
                      </button>
                    </>
                  )}
                </div>
              )}
            </li>
          );
        })}
      </ol>
      <div className="row">
        <button
          type="button"
          className="button"
          aria-pressed={sound}
          onClick={() => {
            if (!sound) ring();
            setSoundWanted(!sound);
          }}
        >
          Ring when a step is over: {sound ? 'yes' : 'no'}
        </button>
        <span className="soft-line">Clocks go by this console and go on while another page is shown.</span>
      </div>
    </section>
  );
}
