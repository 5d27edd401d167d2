/** Single-key shortcuts: harmless acts only, never while typing, and they can be switched off. */
import { useEffect } from 'react';
import type { Command } from '../../machines/line/commands.ts';
import { newestUnacknowledged } from '../alarms/order.ts';
import { CONSOLE_ID, give } from '../live/line.ts';
import { whyNot } from '../live/may.ts';
import { recall, remember } from '../live/memory.ts';
import { say } from '../live/said.ts';
import { createStore, liveStore, useStore } from '../live/store.ts';

export const SHORTCUTS = [
  { key: 'H', words: 'Hold the batch' },
  { key: 'A', words: 'Acknowledge the newest alarm' },
  { key: 'L', words: 'Open or close the alarm list' },
  { key: '?', words: 'Help' },
] as const;

const on = createStore<boolean>(recall('shortcuts') !== 'off');

export const useShortcutsOn = (): boolean => useStore(on, (value) => value);

export function switchShortcuts(wanted: boolean): void {
  remember('shortcuts', wanted ? 'on' : 'off');
  on.set(wanted);
}

const TYPING = 'input, textarea, select, [contenteditable="true"], dialog';

async function giveAndSay(command: Command, done: string): Promise<void> {
  const { me, view } = liveStore.get();
  if (view === null) return;
  const because = whyNot(command.do, { me, seat: view.seat, consoleId: CONSOLE_ID });
  const answer = because.length > 0 ? ({ ok: false, because } as const) : await give(command);
  const text = answer.ok ? done : `Not done. ${answer.because.join('. ')}`;
  say(text);
  toast.set(text);
}

/** What a shortcut did is shown too, since no button was pressed for the words to stand beside. */
export const toast = createStore<string>('');

export function useShortcuts(acts: { readonly onAlarms: () => void; readonly onHelp: () => void }): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!on.get() || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
      if (event.target instanceof Element && event.target.closest(TYPING) !== null) return;
      if (document.querySelector('dialog[open]') !== null) return;
      const key = event.key.toLowerCase();
      if (key === '?') acts.onHelp();
      else if (key === 'l') acts.onAlarms();
      else if (key === 'h') void giveAndSay({ do: 'hold' }, 'Held.');
      else if (key === 'a') {
        const alarm = newestUnacknowledged(liveStore.get().view?.alarms ?? []);
        if (alarm === null) {
          say('No alarm to acknowledge.');
          toast.set('No alarm to acknowledge.');
        } else void giveAndSay({ do: 'acknowledge', alarm: alarm.id }, `Acknowledged: ${alarm.text}`);
      } else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [acts]);
}
