/** The keys of a replay, active while nothing is being typed; the same switch as on the console turns letters off. */
import { useEffect } from 'react';
import { recall } from '../live/memory.ts';
import { jump, moveBy, shiftSpeed, togglePlay } from './acts.ts';
import { JUMPS } from './jumps.ts';
import { lastTickOf } from './replay.types.ts';
import type { Replay } from './replay-client.ts';

export const REPLAY_KEYS: readonly { readonly key: string; readonly words: string }[] = [
  { key: 'Space', words: 'Play or pause' },
  { key: '← →', words: 'A second back or on; with Shift ten' },
  { key: 'PgUp PgDn', words: 'A minute on or back' },
  { key: 'Home End', words: 'Beginning and end of the shift' },
  ...JUMPS.map(({ key, words }) => ({
    key: key.toUpperCase(),
    words: `Next ${words}; with Shift the one before`,
  })),
  { key: '+ −', words: 'Faster or slower' },
  { key: 'B', words: 'Bookmark this moment' },
  { key: 'G', words: 'Go to a time' },
  { key: 'L', words: 'Open or close the alarm list' },
  { key: '?', words: 'Help' },
];

/** Where keys belong to what has the focus. */
const OWN_KEYS = 'input, textarea, select, [contenteditable="true"], dialog';
/** A button answers Space itself; the ribbon moves by its own arrows. */
const OWN_SPACE = 'button, a, summary, [role="button"]';
const OWN_ARROWS = '[role="slider"]';

export type ReplayActs = {
  readonly onAlarms: () => void;
  readonly onHelp: () => void;
  readonly onGo: () => void;
  readonly onBookmark: () => void;
};

const moves = (key: string, isShift: boolean): number | null => {
  if (key === 'ArrowRight') return isShift ? 10 : 1;
  if (key === 'ArrowLeft') return isShift ? -10 : -1;
  if (key === 'PageUp') return 60;
  return key === 'PageDown' ? -60 : null;
};

const pressed = (event: KeyboardEvent, replay: Replay, acts: ReplayActs): boolean => {
  const target = event.target instanceof Element ? event.target : document.body;
  const { key } = event;
  const seconds = moves(key, event.shiftKey);
  const isArrow = seconds !== null || key === 'Home' || key === 'End';
  if (isArrow) {
    if (target.closest(OWN_ARROWS) !== null) return false;
    if (seconds !== null) moveBy(replay, seconds);
    else replay.seek('a', key === 'Home' ? 1 : lastTickOf(replay.state.get()));
    return true;
  }
  if (key === ' ') {
    if (target.closest(OWN_SPACE) !== null) return false;
    togglePlay(replay);
    return true;
  }
  if (event.repeat || recall('shortcuts') === 'off') return false;
  const letter = key.toLowerCase();
  const kind = JUMPS.find((each) => each.key === letter)?.kind;
  if (kind !== undefined) jump(replay, event.shiftKey ? -1 : 1, kind);
  else if (key === '?') acts.onHelp();
  else if (letter === 'l') acts.onAlarms();
  else if (letter === 'g') acts.onGo();
  else if (letter === 'b') acts.onBookmark();
  else if (target.closest(OWN_ARROWS) !== null) return false;
  else if (key === '+' || key === '=') shiftSpeed(replay, 1);
  else if (key === '-') shiftSpeed(replay, -1);
  else return false;
  return true;
};

export function useReplayKeys(replay: Replay, acts: ReplayActs): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      if (replay.state.get().opened === null || document.querySelector('dialog[open]') !== null) return;
      if (event.target instanceof Element && event.target.closest(OWN_KEYS) !== null) return;
      if (pressed(event, replay, acts)) event.preventDefault();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [replay, acts]);
}
