/** Play, speed, steps and jumps of a replay. */
import { type FormEvent, useState } from 'react';
import { shiftClock } from '../format/format.ts';
import { jump, togglePlay } from './acts.ts';
import { useReplay, useReplayClient } from './context.ts';
import { JUMPS, type JumpKind, tickOfClock } from './jumps.ts';
import { lastTickOf, REPLAY_SPEEDS, TICK_MS } from './replay.types.ts';

export const GO_TO_ID = 'replay-go-to';

const Icon = ({ d }: { readonly d: string }) => (
  <svg className="mark" viewBox="0 0 14 14" aria-hidden="true">
    <path d={d} fill="currentColor" />
  </svg>
);
const PLAY = 'M2 1v12l11-6z';
const PAUSE = 'M2.5 1h3v12h-3zM8.5 1h3v12h-3z';
const BACK = 'M1.5 1h2v12h-2zM12.500 1v12L4 7z';
const ON = 'M10.500 1h2v12h-2zM1.500 1v12L10 7z';

function Play() {
  const replay = useReplayClient();
  const playing = useReplay((state) => state.playing);
  const speed = useReplay((state) => state.speed);
  return (
    <fieldset className="replay-group" aria-label="Play">
      <button
        type="button"
        className="speed"
        aria-label="Entry before"
        title="Entry before"
        onClick={() => jump(replay, -1, 'entry')}
      >
        <Icon d={BACK} />
      </button>
      <button
        type="button"
        className="speed replay-play"
        aria-label={playing ? 'Pause' : 'Play'}
        title={playing ? 'Pause' : 'Play'}
        onClick={() => togglePlay(replay)}
      >
        <Icon d={playing ? PAUSE : PLAY} />
      </button>
      <button
        type="button"
        className="speed"
        aria-label="Next entry"
        title="Next entry"
        onClick={() => jump(replay, 1, 'entry')}
      >
        <Icon d={ON} />
      </button>
      {REPLAY_SPEEDS.map((each) => (
        <button
          key={each}
          type="button"
          className="speed num"
          aria-pressed={speed === each}
          aria-label={`${each}× speed`}
          onClick={() => replay.setSpeed(each)}
        >
          {each}×
        </button>
      ))}
    </fieldset>
  );
}

function Jump() {
  const replay = useReplayClient();
  const people = useReplay((state) => state.opened?.scenario.people);
  const [kind, setKind] = useState<JumpKind>('alarm');
  const [person, setPerson] = useState('');
  const go = (way: 1 | -1) => jump(replay, way, kind, person === '' ? null : person);
  return (
    <fieldset className="replay-group replay-jump" aria-label="Jump">
      <button type="button" className="speed" aria-label="Jump back" title="Jump back" onClick={() => go(-1)}>
        <Icon d="M10 1v12L3 7z" />
      </button>
      <select
        aria-label="What to jump to"
        value={kind}
        onChange={(event) => setKind(event.target.value as JumpKind)}
      >
        {JUMPS.filter((each) => each.kind !== 'entry').map((each) => (
          <option key={each.kind} value={each.kind}>
            {each.words}
          </option>
        ))}
      </select>
      {kind === 'person' && (
        <select aria-label="Whose command" value={person} onChange={(event) => setPerson(event.target.value)}>
          <option value="">anybody</option>
          {(people ?? []).map((each) => (
            <option key={each.id} value={each.id}>
              {each.name}
            </option>
          ))}
        </select>
      )}
      <button type="button" className="speed" aria-label="Jump on" title="Jump on" onClick={() => go(1)}>
        <Icon d="M4 1v12l7-6z" />
      </button>
    </fieldset>
  );
}

function GoTo() {
  const replay = useReplayClient();
  const startsAt = useReplay((state) => state.opened?.manifest.shift.startsAt ?? '00:00');
  const lastMs = useReplay((state) => lastTickOf(state) * TICK_MS);
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const tick = tickOfClock(text, startsAt);
    const isThere = tick !== null && tick * TICK_MS <= lastMs;
    setWrong(!isThere);
    if (!isThere) return;
    replay.play(false);
    replay.seek('a', tick);
  };
  return (
    <form className="replay-group replay-go" onSubmit={submit} noValidate>
      <input
        id={GO_TO_ID}
        type="text"
        inputMode="numeric"
        autoComplete="off"
        placeholder="HH:MM:SS"
        aria-label="Time of day to go to"
        aria-invalid={wrong}
        aria-describedby={wrong ? `${GO_TO_ID}-why` : undefined}
        value={text}
        onChange={(event) => {
          setText(event.target.value);
          setWrong(false);
        }}
      />
      <button type="submit" className="speed">
        Go
      </button>
      {wrong && (
        <p className="replay-go-why warn-words" id={`${GO_TO_ID}-why`} role="alert">
          Write a time from {shiftClock(startsAt, 0)} to {shiftClock(startsAt, lastMs)}.
        </p>
      )}
    </form>
  );
}

export function Transport({
  onBookmark,
  onOptions,
  onHelp,
}: {
  readonly onBookmark: () => void;
  readonly onOptions: () => void;
  readonly onHelp: () => void;
}) {
  return (
    <section className="replay-transport" aria-label="Moving through the shift">
      <Play />
      <Jump />
      <GoTo />
      <button type="button" className="button" onClick={onBookmark}>
        Bookmark
      </button>
      <button type="button" className="button" aria-haspopup="dialog" onClick={onOptions}>
        Options
      </button>
      <button type="button" className="button" aria-haspopup="dialog" onClick={onHelp}>
        Help
      </button>
      <p className="replay-caution soft">Nothing can be commanded here.</p>
    </section>
  );
}
