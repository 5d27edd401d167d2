/** Countdowns of tests under way, on every page: an oven does not wait for the page it was started from. */
import { useEffect } from 'react';
import { Link } from 'wouter';
import { formatCountdown } from '../../format/format.ts';
import { say } from '../../live/said.ts';
import { Mark } from '../../parts/mark.tsx';
import { leftS, markRung, ring, stopTimer, useTimers } from './timers.ts';
import { useNowMs } from './use-now.ts';
import './timers.css';

export function TimerStrip() {
  const timers = useTimers();
  const now = useNowMs(timers.length > 0);
  const over = timers.filter((timer) => leftS(timer, now) <= 0 && !timer.rung);
  useEffect(() => {
    for (const timer of over) {
      markRung(timer.id);
      say(`Time is up: ${timer.step}, ${timer.of}.`);
      if (timer.sound) ring();
    }
  }, [over]);
  if (timers.length === 0) return null;
  return (
    <ul className="timer-strip" aria-label="Timed steps of tests">
      {timers.map((timer) => {
        const left = leftS(timer, now);
        return (
          <li key={timer.id} className={left <= 0 ? 'banner upkeep' : 'banner'}>
            <Mark shape={left <= 0 ? 'flag' : 'ring'} />
            <span className="timer-words">
              <strong className="num">
                {left > 0 ? formatCountdown(left) : `over for ${formatCountdown(-left)}`}
              </strong>{' '}
              {timer.step} · {timer.of}
            </span>
            <Link className="button" href={timer.path}>
              Worksheet
            </Link>
            {left <= 0 && (
              <button type="button" className="button" onClick={() => stopTimer(timer.id)}>
                Done
              </button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
