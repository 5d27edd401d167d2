/** A book of the ledger at this console: what it shows, how it is asked, and who may ask what. */
import type { LedgerCommands } from '../../machines/ledger/views.ts';
import type { BookName } from '../../machines/record/book.types.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import { type BookHere, useLedger } from './ledger.ts';
import { useLive } from './store.ts';
import { type Asked, useCommand } from './use-command.ts';

export type BookAsked<B extends BookName> = BookHere<B> & {
  readonly asked: Asked;
  /** True when it was done; otherwise the reasons are in `asked.refusal`. */
  readonly put: (command: LedgerCommands[B], done: string) => Promise<boolean>;
  /** Why this person may not, or null. */
  readonly whyNot: (what: LedgerCommands[B]['do']) => string | null;
};

export function useBook<B extends BookName>(
  name: B,
  permissions: { readonly [D in LedgerCommands[B]['do']]: readonly Role[] },
): BookAsked<B> {
  const book = useLedger(name);
  const asked = useCommand();
  const me = useLive((live) => live.me);
  return {
    ...book,
    asked,
    put: (command, done) => asked.ask(() => book.ask(command), done),
    whyNot: (what) => {
      if (me === null) return 'Say who you are first (top of the page).';
      const roles: readonly Role[] | undefined = permissions[what];
      return roles?.includes(me.role) ? null : `This is for: ${roles?.join(', ') ?? 'nobody'}.`;
    },
  };
}
