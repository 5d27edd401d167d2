/** Giving a command of upkeep from a form: reasons of this side first, then the line's own. */
import { useCallback } from 'react';
import type { Command } from '../../machines/line/commands.ts';
import { whyNot } from '../live/may.ts';
import { type Asked, useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';

export type Giving = Pick<Asked, 'waiting' | 'refusal' | 'clear' | 'explain'> & {
  /** True when the line carried it out. */
  readonly give: (command: Command, done: string) => Promise<boolean>;
  /** Empty when this person at this console may give it. */
  readonly against: (name: Command['do']) => readonly string[];
};

export function useGive(): Giving {
  const asked = useCommand();
  const at = useStandpoint();
  const { barred, explain, send } = asked;
  const against = useCallback(
    (name: Command['do']) => (barred === null ? whyNot(name, at) : [barred]),
    [barred, at],
  );
  const give = useCallback(
    async (command: Command, done: string) => {
      const because = against(command.do);
      if (because.length === 0) return send(command, done);
      explain(because);
      return false;
    },
    [against, explain, send],
  );
  return { ...asked, give, against };
}
