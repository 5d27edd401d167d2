/** What buttons and keys of a replay do. */
import { shiftClock } from '../format/format.ts';
import { say } from '../live/said.ts';
import { toast } from '../shell/shortcuts.ts';
import { JUMPS, type JumpKind, jumpFrom } from './jumps.ts';
import { REPLAY_SPEEDS, TICK_MS } from './replay.types.ts';
import type { Replay } from './replay-client.ts';

const tell = (text: string): void => {
  say(text);
  toast.set(text);
};

export const jump = (replay: Replay, way: 1 | -1, kind: JumpKind, person: string | null = null): void => {
  const { opened, at } = replay.state.get();
  if (opened === null) return;
  replay.play(false);
  const line = jumpFrom(opened.lines, at.a, way, kind, person);
  const words = JUMPS.find((each) => each.kind === kind)?.words ?? kind;
  if (line === null) {
    tell(`No ${words} ${way === 1 ? 'after' : 'before'} this moment.`);
    return;
  }
  replay.seek('a', line.tick);
  say(`${shiftClock(opened.manifest.shift.startsAt, line.tick * TICK_MS)}: ${line.text}`);
};

export const togglePlay = (replay: Replay): void => replay.play(!replay.state.get().playing);

export const moveBy = (replay: Replay, seconds: number): void => {
  replay.play(false);
  replay.seek('a', replay.state.get().at.a + seconds * 10);
};

/** Faster or slower by one step of the speeds there are. */
export const shiftSpeed = (replay: Replay, way: 1 | -1): void => {
  const speeds: readonly number[] = REPLAY_SPEEDS;
  const index = speeds.indexOf(replay.state.get().speed) + way;
  const speed = REPLAY_SPEEDS[Math.min(REPLAY_SPEEDS.length - 1, Math.max(0, index))];
  if (speed !== undefined) replay.setSpeed(speed);
};
