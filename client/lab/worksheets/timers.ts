/** Timed steps of a test, by this console's own clock: they go on while another page is shown and over a reload. */
import { recall, remember } from '../../live/memory.ts';
import { createStore, useStore } from '../../live/store.ts';

export type Timer = {
  readonly id: string;
  /** "Lot 260512-3, water resistance" */
  readonly of: string;
  /** "In the oven" */
  readonly step: string;
  /** Where the worksheet is. */
  readonly path: string;
  readonly startedMs: number;
  readonly seconds: number;
  readonly sound: boolean;
  /** The end has been shown and rung. */
  readonly rung: boolean;
};

const KEY = 'lab-timers';
const MOST_TIMERS = 12;

const isTimer = (value: unknown): value is Timer => {
  if (typeof value !== 'object' || value === null) return false;
  const t = value as Partial<Timer>;
  return (
    typeof t.id === 'string' &&
    typeof t.of === 'string' &&
    typeof t.step === 'string' &&
    typeof t.path === 'string' &&
    typeof t.startedMs === 'number' &&
    typeof t.seconds === 'number'
  );
};

const read = (): readonly Timer[] => {
  try {
    const kept: unknown = JSON.parse(recall(KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isTimer) : [];
  } catch {
    return [];
  }
};

const timers = createStore<readonly Timer[]>(read());
const put = (next: readonly Timer[]): void => {
  timers.set(next);
  remember(KEY, JSON.stringify(next));
};

export const useTimers = (): readonly Timer[] => useStore(timers, (list) => list);

/** Seconds left, below zero once it is over. */
export const leftS = (timer: Timer, nowMs: number): number =>
  timer.seconds - (nowMs - timer.startedMs) / 1000;

export function startTimer(timer: Omit<Timer, 'rung'>): void {
  const others = timers.get().filter((one) => one.id !== timer.id);
  put([...others, { ...timer, rung: false }].slice(-MOST_TIMERS));
}

export const stopTimer = (id: string): void => put(timers.get().filter((one) => one.id !== id));

export const setSound = (id: string, sound: boolean): void =>
  put(timers.get().map((one) => (one.id === id ? { ...one, sound } : one)));

export const markRung = (id: string): void =>
  put(timers.get().map((one) => (one.id === id ? { ...one, rung: true } : one)));

/** Three short tones; a browser that forbids sound just shows the words. */
export function ring(): void {
  try {
    const audio = new AudioContext();
    for (const i of [0, 1, 2]) {
      const tone = audio.createOscillator();
      const volume = audio.createGain();
      volume.gain.value = 0.2;
      tone.frequency.value = 880;
      tone.connect(volume).connect(audio.destination);
      tone.start(audio.currentTime + i * 0.35);
      tone.stop(audio.currentTime + i * 0.35 + 0.2);
    }
    setTimeout(() => void audio.close(), 2000);
  } catch {
    // No sound here: the countdown says it in words and large figures.
  }
}
