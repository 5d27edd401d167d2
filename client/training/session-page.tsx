/** The trainer's seat over one drill: clock, moments, faults, messages, and how the trainee does. */
import { useEffect, useId, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { SessionAsk, SessionDetail } from '../../machines/live/training.ts';
import { shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { ConfirmDialog } from '../parts/confirm.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { askSession, linePath } from './api.ts';
import { HandFaults } from './hand-faults.tsx';
import { Moments } from './moments.tsx';
import { TileFacts } from './tile.tsx';
import { useGot } from './use-got.ts';
import { clockOfS } from './words.ts';

const LOOK_EVERY_MS = 1000;
const SPEEDS = [1, 10, 60] as const;

function Messages({
  detail,
  send,
}: {
  readonly detail: SessionDetail;
  readonly send: (ask: SessionAsk, done: string) => void;
}) {
  const [text, setText] = useState('');
  const id = useId();
  return (
    <section className="card stack" aria-labelledby={`${id}-h`}>
      <h2 id={`${id}-h`}>Messages</h2>
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault();
          send({ do: 'message', text }, 'Sent.');
          setText('');
        }}
      >
        <div className="field">
          <label htmlFor={`${id}-m`}>To {detail.tile.trainee.name}</label>
          <textarea
            id={`${id}-m`}
            rows={2}
            maxLength={400}
            value={text}
            onChange={(event) => setText(event.target.value)}
          />
        </div>
        <button type="submit" className="button">
          Send
        </button>
      </form>
      {detail.messages.length === 0 ? (
        <p className="soft">Nothing has been said yet.</p>
      ) : (
        <ul className="said">
          {[...detail.messages].reverse().map((message) => (
            <li key={message.id}>
              <span className="num soft">{shiftClock(detail.tile.startsAt, message.atMs, false)}</span>
              <span>
                <strong>{message.from}:</strong> {message.text}
                {message.answers.length > 0 && (
                  <span className="soft">
                    {' '}
                    {message.answer === null
                      ? '(not answered yet)'
                      : `Answered: ${message.answers.find((one) => one.id === message.answer)?.text ?? message.answer}`}
                  </span>
                )}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

export function SessionPage({ session }: { readonly session: string }) {
  const me = useLive((live) => live.me);
  const [, go] = useLocation();
  const got = useGot<SessionDetail>(
    me === null ? null : `/api/training/sessions/${session}?person=${encodeURIComponent(me.id)}`,
    LOOK_EVERY_MS,
  );
  const asked = useCommand();
  const [sure, setSure] = useState(false);
  const detail = got.value;
  const over = detail?.tile.state === 'over';
  useEffect(() => {
    if (over) go(`/training/debrief/${session}`);
  }, [over, session, go]);
  const send = (ask: SessionAsk, done: string) =>
    void asked.ask(() => askSession(session, ask), done).then((ok) => ok && got.again());

  if (me === null || got.because !== null || detail === null)
    return (
      <section className="card waiting-line" role="status">
        <h1>{got.because === null ? 'Looking for the drill…' : 'Not to be seen here'}</h1>
        <p>{me === null ? 'Say who you are at the top of the page.' : got.because?.join(' ')}</p>
        <div className="row">
          <Link className="button" href="/training">
            To Training
          </Link>
          {got.because !== null && (
            <Link className="button" href={`/training/debrief/${session}`}>
              Look for its debrief
            </Link>
          )}
        </div>
      </section>
    );
  const { tile } = detail;
  const frozen = tile.state === 'frozen';
  return (
    <div className="page wide training">
      <div className="page-head">
        <h1>{tile.trainee.name}</h1>
        <p>{tile.drillName}</p>
        <p className="soft num">
          seed {tile.seed} · {tile.hints ? 'hints allowed' : 'no hints'}
          {detail.returns > 0
            ? ` · turned back ${detail.returns === 1 ? 'once' : `${detail.returns} times`}`
            : ''}
        </p>
        <Link href="/training" className="page-back">
          All drills
        </Link>
      </div>
      <section className="card lead" aria-label="The drill now">
        <div className="lead-row">
          <p className="lead-clock num">
            {clockOfS(tile.elapsedS)} <span className="soft">of {tile.minutes}:00</span>
          </p>
          <button
            type="button"
            className={frozen ? 'button primary' : 'button'}
            onClick={() => send({ do: frozen ? 'goOn' : 'freeze' }, frozen ? 'It goes on.' : 'Frozen.')}
          >
            {frozen ? 'Go on' : 'Freeze'}
          </button>
          <fieldset className="row" aria-label="Speed of the drill">
            {SPEEDS.map((speed) => (
              <button
                key={speed}
                type="button"
                className="button num"
                aria-pressed={tile.speed === speed}
                aria-label={`${speed} times speed`}
                onClick={() => send({ do: 'speed', speed }, `${speed} times speed.`)}
              >
                {speed}×
              </button>
            ))}
          </fieldset>
          <span className={frozen ? 'tag frozen' : 'tag'}>{tile.state}</span>
          <div className="row lead-more">
            <a className="button" href={linePath(session)} target="_blank" rel="noreferrer">
              Look at the console
            </a>
            <button type="button" className="button danger" onClick={() => setSure(true)}>
              Finish the drill
            </button>
          </div>
        </div>
        <Refusal because={asked.refusal} onClose={asked.clear} />
        <p className="tile-step">
          <strong>{tile.step}</strong>
          <span className="soft">
            {tile.over}
            {tile.hasControls ? '' : ' · the trainee does not hold the controls'}
          </span>
        </p>
        <TileFacts tile={tile} />
      </section>
      <Moments
        tile={tile}
        moments={detail.moments}
        fromTick={detail.fromTick}
        asked={asked}
        onDone={got.again}
      />
      <div className="lead-columns">
        <HandFaults detail={detail} send={send} />
        <Messages detail={detail} send={send} />
      </div>
      {sure && (
        <ConfirmDialog
          title="Finish the drill?"
          words={`The drill of ${tile.trainee.name} ends here and the debrief is made. What is still expected counts as missed.`}
          go="Finish"
          onClose={() => setSure(false)}
          onGo={() => {
            setSure(false);
            send({ do: 'finish' }, 'The drill is over; the debrief is being made.');
          }}
        />
      )}
    </div>
  );
}
