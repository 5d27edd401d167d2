/** The book of recalls at this console: what it shows, how it is asked, and who may ask what. */
import { RECALLS_PERMISSIONS, type RecallsCommand } from '../../../machines/yard/trace/recalls/commands.ts';
import { useLedger } from '../../live/ledger.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';

export function useRecalls() {
  const book = useLedger('recalls');
  const asked = useCommand();
  const me = useLive((live) => live.me);
  return {
    ...book,
    asked,
    /** True when it was done; otherwise the reasons are in `asked.refusal`. */
    put: (command: RecallsCommand, done: string) => asked.ask(() => book.ask(command), done),
    /** Why this person may not, or null. */
    whyNot: (what: RecallsCommand['do']): string | null => {
      if (me === null) return 'Say who you are first (top of the page).';
      const roles = RECALLS_PERMISSIONS[what];
      return roles.includes(me.role) ? null : `This is for: ${roles.join(', ')}.`;
    },
  };
}
export type RecallsHere = ReturnType<typeof useRecalls>;
