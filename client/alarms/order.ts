/** In which order alarms are shown and what their states mean for a person (ISA-18.2 words). */
import type { AlarmView } from '../../machines/line/view.types.ts';

const PRIORITY_RANK = { high: 0, medium: 1, low: 2 } as const;

const STATE_RANK: { readonly [K in AlarmView['state']]: number } = {
  unacknowledged: 0,
  'returned unacknowledged': 1,
  acknowledged: 2,
  shelved: 3,
  'suppressed by design': 4,
  'out of service': 5,
};

export const isUnacknowledged = (alarm: AlarmView): boolean =>
  alarm.state === 'unacknowledged' || alarm.state === 'returned unacknowledged';

/** Counted on the pill: shelved, suppressed and out-of-service alarms are put aside on purpose. */
export const isActive = (alarm: AlarmView): boolean =>
  isUnacknowledged(alarm) || alarm.state === 'acknowledged';

export const worstPriority = (alarms: readonly AlarmView[]): AlarmView['priority'] | null =>
  alarms.reduce<AlarmView['priority'] | null>(
    (worst, alarm) =>
      worst === null || PRIORITY_RANK[alarm.priority] < PRIORITY_RANK[worst] ? alarm.priority : worst,
    null,
  );

/** Unacknowledged first, then by priority, then newest first, then by id so that the order never wavers. */
export const inOrder = (alarms: readonly AlarmView[]): readonly AlarmView[] =>
  [...alarms].sort(
    (a, b) =>
      STATE_RANK[a.state] - STATE_RANK[b.state] ||
      PRIORITY_RANK[a.priority] - PRIORITY_RANK[b.priority] ||
      b.sinceMs - a.sinceMs ||
      (a.id < b.id ? -1 : 1),
  );

/** The one the shortcut acknowledges: newest of those that still want a person. */
export const newestUnacknowledged = (alarms: readonly AlarmView[]): AlarmView | null =>
  alarms
    .filter(isUnacknowledged)
    .reduce<AlarmView | null>(
      (best, alarm) => (best === null || alarm.sinceMs > best.sinceMs ? alarm : best),
      null,
    );
