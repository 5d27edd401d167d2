/** Giving a command from one place on the page: waiting while it is asked, reasons when it is refused. */
import { useCallback, useRef, useState } from 'react';
import type { Command } from '../../machines/line/commands.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import { give } from './line.ts';
import { say, sentences } from './said.ts';
import { useSource } from './store.ts';

export type Asked = {
  readonly waiting: boolean;
  readonly refusal: readonly string[] | null;
  /** Gives the command; true when it was accepted. */
  readonly send: (command: Command, done?: string) => Promise<boolean>;
  /** The same for anything else that is answered with reasons. */
  readonly ask: (asking: () => Promise<Answer>, done?: string) => Promise<boolean>;
  /** Shows reasons known beforehand, without asking. */
  readonly explain: (because: readonly string[]) => void;
  readonly clear: () => void;
  /** Why nothing can be commanded from this page at all; null where it can. */
  readonly barred: string | null;
};

export function useCommand(): Asked {
  const [waiting, setWaiting] = useState(false);
  const [refusal, setRefusal] = useState<readonly string[] | null>(null);
  const busy = useRef(false);
  const { barred } = useSource();

  const explain = useCallback((because: readonly string[]) => {
    setRefusal(because);
    say(`Not done. ${sentences(because)}.`);
  }, []);

  const ask = useCallback(
    async (asking: () => Promise<Answer>, done?: string): Promise<boolean> => {
      if (busy.current) return false;
      if (barred !== null) {
        explain([barred]);
        return false;
      }
      busy.current = true;
      setWaiting(true);
      setRefusal(null);
      const answer = await asking();
      busy.current = false;
      setWaiting(false);
      if (answer.ok) {
        if (done !== undefined) say(done);
        return true;
      }
      explain(answer.because);
      return false;
    },
    [explain, barred],
  );

  const send = useCallback((command: Command, done?: string) => ask(() => give(command), done), [ask]);
  const clear = useCallback(() => setRefusal(null), []);
  return { waiting, refusal, send, ask, explain, clear, barred };
}
