/** The quiet band over a trainee's console: which drill, how long, messages, hints and the way out. Nothing else is added. */
import { useEffect, useId, useState } from 'react';
import type { DrillBand as Band, SeatMessage, SessionAsk } from '../../machines/live/training.ts';
import { shiftClock } from '../format/format.ts';
import { barredStore, SESSION, useBand } from '../live/session.ts';
import { useLive, useStore } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { ConfirmDialog } from '../parts/confirm.tsx';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { Who } from '../shell/who.tsx';
import { askSession } from './api.ts';
import { clockOfS } from './words.ts';
import './drill-band.css';

/** While the line of the drill has not come, or is not for this person. */
export function WaitingForDrill() {
  const barred = useStore(barredStore, (because) => because);
  const me = useLive((live) => live.me);
  const people = useLive((live) => live.people.length);
  return (
    <section className="card waiting-line" role="status">
      <h1>{barred === null ? 'Looking for the drill…' : 'Not your drill'}</h1>
      {barred === null ? (
        <p className="soft">
          {people > 0 && me === null
            ? 'Say who you are at the top of the page: a drill is shown to its trainee and to those who lead it.'
            : 'This page fills itself when the drill answers. If it stays empty, the drill may be over: its debrief is under Training.'}
        </p>
      ) : (
        barred.map((reason) => <p key={reason}>{reason}</p>)
      )}
      <div className="row">
        {me === null && people > 0 && <Who />}
        <a className="button" href="/training">
          To Training
        </a>
      </div>
    </section>
  );
}

function Message({
  message,
  startsAt,
  mine,
  reply,
}: {
  readonly message: SeatMessage;
  readonly startsAt: string;
  readonly mine: boolean;
  readonly reply: (answer: string) => void;
}) {
  const answered = message.answers.find(({ id }) => id === message.answer);
  return (
    <li
      className={message.answers.length > 0 && message.answer === null ? 'band-message open' : 'band-message'}
    >
      <p>
        <span className="num soft">{shiftClock(startsAt, message.atMs, false)}</span>{' '}
        <strong>{message.from}:</strong> {message.text}
      </p>
      {answered !== undefined && <p className="soft">Answered: {answered.text}</p>}
      {message.answers.length > 0 && message.answer === null && mine && (
        <div className="row">
          {message.answers.map(({ id, text }) => (
            <button key={id} type="button" className="button" onClick={() => reply(id)}>
              {text}
            </button>
          ))}
        </div>
      )}
    </li>
  );
}

const stateWords = (band: Band): string => {
  if (band.state === 'over') return 'The drill is over.';
  if (band.state === 'frozen') return `Frozen by ${band.frozenBy ?? 'the trainer'}.`;
  return '';
};

export function DrillBand() {
  const band = useBand((known) => known);
  const me = useLive((live) => live.me);
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const asked = useCommand();
  const [open, setOpen] = useState(true);
  const [sure, setSure] = useState(false);
  const [call, setCall] = useState('');
  const [seen, setSeen] = useState(0);
  const callId = useId();
  const count = band === null ? 0 : band.messages.length + band.hints.length;
  // What has just been said is shown at once.
  useEffect(() => {
    if (count > seen) setOpen(true);
    setSeen(count);
  }, [count, seen]);
  if (band === null || SESSION === null) return null;
  const session = SESSION;
  const mine = me?.id === band.trainee.id;
  const over = band.state === 'over';
  const send = (ask: SessionAsk, done: string) => void asked.ask(() => askSession(session, ask), done);
  const words = stateWords(band);
  return (
    <section className="drill-band" aria-label="Drill">
      <div className="band-row">
        <p className="band-name">
          <strong>{band.drillName}</strong>
          <span className="soft">{mine ? ' drill' : ` drill of ${band.trainee.name}; you look on`}</span>
        </p>
        <p className="num band-time">
          {clockOfS(band.leftS)} <span className="soft">left of {band.minutes} min</span>
        </p>
        {words !== '' && (
          <p className="band-state" role="status">
            <Mark shape={over ? 'flag' : 'square'} /> {words}
          </p>
        )}
        <div className="row band-acts">
          <button type="button" className="button" aria-expanded={open} onClick={() => setOpen(!open)}>
            {open ? 'Hide the brief' : `Brief and messages${count > 0 ? ` (${count})` : ''}`}
          </button>
          {mine && !over && band.hintsAllowed && (
            <button
              type="button"
              className="button"
              data-barred={!band.hintReady}
              onClick={() => send({ do: 'hint' }, 'A hint is shown.')}
            >
              Hint
            </button>
          )}
          {mine && !over && (
            <button type="button" className="button" onClick={() => setSure(true)}>
              Finish
            </button>
          )}
          {over && (
            <a className="button primary" href={`/training/debrief/${session}`}>
              See the debrief
            </a>
          )}
          {!mine && (
            <a className="button" href="/training">
              Back to Training
            </a>
          )}
        </div>
      </div>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {open && (
        <div className="band-more">
          <div className="stack">
            <p>{band.brief}</p>
            {band.hints.length > 0 && (
              <ul className="band-hints">
                {band.hints.map(({ atMs, text }) => (
                  <li key={`${atMs}${text}`}>
                    <Mark shape="flag" /> <strong>Hint:</strong> {text}
                  </li>
                ))}
              </ul>
            )}
            {mine && !over && band.mayCall.length > 0 && (
              <div className="row">
                <label htmlFor={callId}>Call</label>
                <select id={callId} value={call} onChange={(event) => setCall(event.target.value)}>
                  <option value="">somebody…</option>
                  {band.mayCall.map((who) => (
                    <option key={who} value={who}>
                      the {who}
                    </option>
                  ))}
                </select>
                <button
                  type="button"
                  className="button"
                  data-barred={call === ''}
                  onClick={() => {
                    if (call === '') asked.explain(['Choose whom to call.']);
                    else send({ do: 'call', who: call }, `Called the ${call}.`);
                    setCall('');
                  }}
                >
                  Call
                </button>
              </div>
            )}
          </div>
          <div className="stack">
            {band.messages.length > 0 && (
              <ul className="band-messages" aria-label="Messages" aria-live="polite">
                {[...band.messages].reverse().map((message) => (
                  <Message
                    key={message.id}
                    message={message}
                    startsAt={startsAt}
                    mine={mine && !over}
                    reply={(answer) => send({ do: 'reply', message: message.id, answer }, 'Answered.')}
                  />
                ))}
              </ul>
            )}
          </div>
        </div>
      )}
      {sure && (
        <ConfirmDialog
          title="Finish the drill?"
          words="The drill ends here and the debrief is made. What is still expected counts as missed."
          go="Finish"
          onClose={() => setSure(false)}
          onGo={() => {
            setSure(false);
            send({ do: 'finish' }, 'The drill is over.');
          }}
        />
      )}
    </section>
  );
}
