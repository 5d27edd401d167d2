/** What the seats are shown of a session beside its line: the trainee's band, the trainer's tile, messages. */
import type { SeatExtras } from '../../machines/drills/run.types.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type {
  DrillBand,
  DrillCard,
  SeatMessage,
  SessionState,
  SessionTile,
} from '../../machines/live/training.ts';
import { TICK_MS } from '../../machines/record/recorder.ts';
import type { Standings } from './engine.ts';
import type { Opened } from './log.ts';
import { isAlone } from './rights.ts';

/** Where a session stands. */
export type Standing = {
  readonly opened: Opened;
  readonly card: DrillCard;
  readonly state: SessionState;
  readonly speed: number;
  readonly frozenBy: string | null;
  readonly atMs: number;
  readonly elapsedS: number;
};

const named = ({ id, name }: Opened['by']) => ({ id, name });

export const messagesOf = ({ messages }: SeatExtras): readonly SeatMessage[] =>
  messages.map(({ id, tick, from, text, answers, answer }) => ({
    id,
    atMs: tick * TICK_MS,
    from,
    text,
    answers,
    answer,
  }));

export const bandOf = ({ opened, card, ...now }: Standing, seat: SeatExtras): DrillBand => ({
  ...now,
  session: opened.session,
  drillName: card.name,
  brief: seat.brief,
  minutes: card.minutes,
  leftS: Math.max(0, seat.leftS),
  alone: isAlone(opened),
  trainee: named(opened.trainee),
  by: named(opened.by),
  messages: messagesOf(seat),
  hintsAllowed: seat.hintsAllowed,
  hintReady: seat.hintReady,
  hints: seat.hints.map(({ tick, text }) => ({ atMs: tick * TICK_MS, text })),
  mayCall: seat.mayCall,
});

export const tileOf = (
  { opened, card, state, speed, atMs, elapsedS }: Standing,
  { shift, now, seat, plant, interlock, alarms }: LineView,
  { score, unsafe }: Standings,
  watching: number,
): SessionTile => ({
  session: opened.session,
  drill: opened.drill,
  drillName: card.name,
  minutes: card.minutes,
  trainee: named(opened.trainee),
  by: named(opened.by),
  alone: isAlone(opened),
  seed: opened.seed,
  hints: opened.hints,
  state,
  speed,
  startsAt: shift.startsAt,
  atMs,
  elapsedS,
  over: now.over,
  step: now.title,
  hasControls: seat.holder?.person === opened.trainee.id,
  flame: plant.readings.flameSeen === 1,
  vapourLelPct: plant.readings.vapourLelPct,
  vapourWarnLelPct: plant.limits.vapourWarnLelPct,
  vapourTripLelPct: plant.limits.vapourTripLelPct,
  tripped: interlock.tripped,
  alarms: {
    unacknowledged: alarms.filter((one) => one.state.endsWith('unacknowledged')).length,
    active: alarms.filter((one) => one.state === 'unacknowledged' || one.state === 'acknowledged').length,
  },
  watching,
  score,
  unsafe,
});
