/** The book of job mixes at this console: what it shows, how it is asked, and who may ask what. */
import { MIXES_PERMISSIONS, type MixesCommand } from '../../../machines/yard/mixes/commands.ts';
import { useLedger } from '../../live/ledger.ts';
import { useLive } from '../../live/store.ts';
import { type Asked, useCommand } from '../../live/use-command.ts';

export type MixesHere = ReturnType<typeof useLedger<'mixes'>> & {
  readonly asked: Asked;
  /** True when it was done; otherwise the reasons are in `asked.refusal`. */
  readonly put: (command: MixesCommand, done: string) => Promise<boolean>;
  /** Why this person may not, or null. */
  readonly whyNot: (what: MixesCommand['do']) => string | null;
};

export function useMixes(): MixesHere {
  const book = useLedger('mixes');
  const asked = useCommand();
  const me = useLive((live) => live.me);
  return {
    ...book,
    asked,
    put: (command, done) => asked.ask(() => book.ask(command), done),
    whyNot: (what) => {
      if (me === null) return 'Say who you are first (top of the page).';
      const roles = MIXES_PERMISSIONS[what];
      return roles.includes(me.role) ? null : `This is for: ${roles.join(', ')}.`;
    },
  };
}
