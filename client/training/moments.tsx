/** The moments of a drill on a ribbon: one kept every minute, others by name; any can be returned to. */
import { useId, useState } from 'react';
import type { Moment, SessionAsk, SessionTile } from '../../machines/live/training.ts';
import { shiftClock } from '../format/format.ts';
import type { Asked } from '../live/use-command.ts';
import { ConfirmDialog } from '../parts/confirm.tsx';
import { Mark } from '../parts/mark.tsx';
import { askSession } from './api.ts';
import { clockOfS } from './words.ts';

const W = 1000;

export function Moments({
  tile,
  moments,
  fromTick,
  asked,
  onDone,
}: {
  readonly tile: SessionTile;
  readonly moments: readonly Moment[];
  readonly fromTick: number;
  readonly asked: Asked;
  readonly onDone: () => void;
}) {
  const [at, setAt] = useState<number | null>(null);
  const [name, setName] = useState('');
  const [sure, setSure] = useState(false);
  const id = useId();
  const last = moments.length - 1;
  const place = at === null ? last : Math.min(at, last);
  const chosen = moments[place];
  const wholeS = Math.max(tile.minutes * 60, tile.elapsedS, 1);
  const xOf = (tick: number) => (W * (tick - fromTick)) / 10 / wholeS;
  const intoS = (tick: number) => (tick - fromTick) / 10;
  /** The kept moment nearest to a time; a small step of the arrow keys goes on to the next one. */
  const snapped = (wantedS: number): number => {
    const nowS = chosen === undefined ? 0 : Math.round(intoS(chosen.tick));
    let best = 0;
    moments.forEach((moment, i) => {
      const nearer =
        Math.abs(intoS(moment.tick) - wantedS) < Math.abs(intoS(moments[best]?.tick ?? 0) - wantedS);
      if (nearer) best = i;
    });
    if (best !== place || wantedS === nowS) return best;
    return Math.min(last, Math.max(0, place + (wantedS > nowS ? 1 : -1)));
  };
  const send = (ask: SessionAsk, done: string) =>
    void asked.ask(() => askSession(tile.session, ask), done).then((ok) => ok && onDone());
  const named = moments.filter((moment) => moment.name !== null);
  return (
    <section className="card stack" aria-labelledby={`${id}-h`}>
      <div className="page-head">
        <h2 id={`${id}-h`}>Moments</h2>
        <p className="soft">Kept every minute and whenever you name one. Returning undoes what came after.</p>
      </div>
      <svg className="moments-ribbon" viewBox={`0 0 ${W} 46`} preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="22" width={W} height="12" className="moments-room" />
        <rect x="0" y="22" width={xOf(fromTick + tile.elapsedS * 10)} height="12" className="moments-done" />
        {moments.map((moment) => (
          <path
            key={`${moment.tick}${moment.name ?? ''}`}
            d={`M${xOf(moment.tick)} ${moment.name === null ? 34 : 6}V44`}
            className={moment.name === null ? 'moments-minute' : 'moments-named'}
          />
        ))}
        {chosen !== undefined && <path d={`M${xOf(chosen.tick)} 0V46`} className="moments-chosen" />}
      </svg>
      <input
        className="moments-slider"
        aria-label="Moment to return to"
        type="range"
        min={0}
        max={Math.round(wholeS)}
        step={1}
        value={chosen === undefined ? 0 : Math.round(intoS(chosen.tick))}
        aria-valuetext={
          chosen === undefined
            ? 'none'
            : `${clockOfS(intoS(chosen.tick))} into the drill${chosen.name === null ? '' : `, ${chosen.name}`}`
        }
        onChange={(event) => setAt(snapped(Number(event.target.value)))}
      />
      {named.length > 0 && (
        <ul className="row" aria-label="Moments by name">
          {named.map((moment) => (
            <li key={`${moment.tick}${moment.name}`}>
              <button
                type="button"
                className="button"
                aria-pressed={chosen === moment}
                onClick={() => setAt(moments.indexOf(moment))}
              >
                <Mark shape="flag" /> {moment.name}{' '}
                <span className="num">{clockOfS(intoS(moment.tick))}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="row">
        <button
          type="button"
          className="button"
          disabled={chosen === undefined}
          onClick={() => setSure(true)}
        >
          {chosen === undefined
            ? 'No moment yet'
            : `Return to ${clockOfS(intoS(chosen.tick))} (${shiftClock(tile.startsAt, chosen.atMs, true)} plant time)`}
        </button>
        <form
          className="row keep-moment"
          onSubmit={(event) => {
            event.preventDefault();
            send({ do: 'keepMoment', name }, 'This moment is kept.');
            setName('');
          }}
        >
          <label htmlFor={`${id}-n`}>Keep this moment as</label>
          <input
            id={`${id}-n`}
            type="text"
            maxLength={60}
            value={name}
            placeholder="before the binder"
            onChange={(event) => setName(event.target.value)}
          />
          <button type="submit" className="button">
            Keep
          </button>
        </form>
      </div>
      {sure && chosen !== undefined && (
        <ConfirmDialog
          title="Return to this moment?"
          words={`The drill goes back to ${clockOfS(intoS(chosen.tick))} and stands frozen there. What ${tile.trainee.name} did after it is undone; the debrief says that the drill was turned back.`}
          go="Return"
          onClose={() => setSure(false)}
          onGo={() => {
            setSure(false);
            setAt(null);
            send({ do: 'returnTo', tick: chosen.tick }, 'The drill was turned back and is frozen.');
          }}
        />
      )}
    </section>
  );
}
