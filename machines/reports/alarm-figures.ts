/** Arithmetic of alarm performance over moments in seconds: rates, floods, chattering, fleeting, standing. */
import { CHATTER, FLEETING_S, FLOOD } from './alarm-published.ts';

/** A run of an alarm: raised, and how it ended. */
export type Raised = {
  readonly alarm: string;
  readonly atS: number;
  /** When it no longer stood in view (condition gone, shelved, suppressed, out of service); null: still standing. */
  readonly goneS: number | null;
  readonly acknowledgedS: number | null;
};

const STANDS = new Set(['unacknowledged', 'acknowledged']);

export type AlarmChange = { readonly alarm: string; readonly atS: number; readonly state: string };

/**
 * Annunciations out of changes of state in order of time: every entry into "unacknowledged" is one, a
 * re-alarm out of "returned unacknowledged" too. It stands until it is in neither unacknowledged nor acknowledged.
 */
export const raisedOf = (changes: readonly AlarmChange[]): Raised[] => {
  const out: { -readonly [K in keyof Raised]: Raised[K] }[] = [];
  const open = new Map<string, (typeof out)[number]>();
  for (const { alarm, atS, state } of changes) {
    const run = open.get(alarm);
    if (state === 'unacknowledged') {
      if (run !== undefined) run.goneS = atS;
      const next = { alarm, atS, goneS: null, acknowledgedS: null };
      out.push(next);
      open.set(alarm, next);
    } else if (run !== undefined) {
      if (state === 'acknowledged') run.acknowledgedS ??= atS;
      if (!STANDS.has(state)) {
        run.goneS = atS;
        open.delete(alarm);
      }
    }
  }
  return out;
};

/** Most moments in any window (t − windowS, t], and the t where that is first reached; moments in order. */
export const peakIn = (timesS: readonly number[], windowS: number): { count: number; atS: number | null } => {
  let best = 0;
  let atS: number | null = null;
  let from = 0;
  timesS.forEach((t, i) => {
    while ((timesS[from] ?? t) <= t - windowS) from += 1;
    if (i - from + 1 > best) {
      best = i - from + 1;
      atS = t;
    }
  });
  return { count: best, atS };
};

export type Flood = {
  readonly fromS: number;
  readonly toS: number;
  readonly alarms: number;
  readonly peak: number;
};

/**
 * Floods by a window that slides: one starts at the moment more than 10 alarms lie in the 10 minutes up to
 * then, and ends at the first moment fewer than 5 do (ISA-18.2). `alarms` counts from the first alarm
 * of the window that started it; one that runs on at `endS` ends there.
 */
export const floodsOf = (timesS: readonly number[], endS: number): Flood[] => {
  const { windowS, startsAbove, endsBelow } = FLOOD;
  const floods: Flood[] = [];
  let i = 0;
  let from = 0;
  let counted = 0;
  while (i < timesS.length) {
    const t = timesS[i] as number;
    while ((timesS[from] ?? t) <= t - windowS) from += 1;
    if (i - from + 1 <= startsAbove) {
      i += 1;
      continue;
    }
    // Alarms of a flood before may lie in this window; they are counted once.
    const first = Math.max(from, counted);
    let last = i;
    let peak = i - from + 1;
    // The flood lasts until the window holds endsBelow − 1: that is when the alarm so many from the end leaves it.
    let overS = (timesS[last - endsBelow + 1] as number) + windowS;
    while (last + 1 < timesS.length && (timesS[last + 1] as number) <= overS) {
      last += 1;
      while ((timesS[from] as number) <= (timesS[last] as number) - windowS) from += 1;
      peak = Math.max(peak, last - from + 1);
      overS = (timesS[last - endsBelow + 1] as number) + windowS;
    }
    floods.push({ fromS: t, toS: Math.min(overS, endS), alarms: last - first + 1, peak });
    i = last + 1;
    counted = i;
  }
  return floods;
};

/** Count per slice of windowS from 0 to endS; the last slice may be shorter. */
export const histogramOf = (timesS: readonly number[], windowS: number, endS: number): number[] => {
  const counts = new Array<number>(Math.max(1, Math.ceil(endS / windowS))).fill(0);
  for (const t of timesS) {
    const slice = Math.min(counts.length - 1, Math.max(0, Math.floor(t / windowS)));
    counts[slice] = (counts[slice] ?? 0) + 1;
  }
  return counts;
};

/** Alarms raised so often within a minute that they chatter: times raised inside such minutes, by alarm. */
export const chatteringOf = (raised: readonly Raised[]): { alarm: string; times: number }[] => {
  const out: { alarm: string; times: number }[] = [];
  for (const [alarm, runs] of byAlarm(raised)) {
    const inBurst = new Set<number>();
    runs.forEach((run, i) => {
      const start = i - CHATTER.times + 1;
      const first = runs[start];
      if (first === undefined || run.atS - first.atS > CHATTER.withinS) return;
      for (let k = start; k <= i; k += 1) inBurst.add(k);
    });
    if (inBurst.size > 0) out.push({ alarm, times: inBurst.size });
  }
  return out;
};

/** Alarms that came and went within seconds before anybody acknowledged them, and do not chatter. */
export const fleetingOf = (raised: readonly Raised[]): { alarm: string; times: number }[] => {
  const chattering = new Set(chatteringOf(raised).map((one) => one.alarm));
  const out: { alarm: string; times: number }[] = [];
  for (const [alarm, runs] of byAlarm(raised)) {
    if (chattering.has(alarm)) continue;
    const times = runs.filter(
      (run) => run.goneS !== null && run.acknowledgedS === null && run.goneS - run.atS < FLEETING_S,
    ).length;
    if (times > 0) out.push({ alarm, times });
  }
  return out;
};

export const byAlarm = (raised: readonly Raised[]): ReadonlyMap<string, readonly Raised[]> => {
  const map = new Map<string, Raised[]>();
  for (const run of raised) {
    const list = map.get(run.alarm);
    if (list === undefined) map.set(run.alarm, [run]);
    else list.push(run);
  }
  return map;
};
