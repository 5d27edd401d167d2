/** The patches book at this console: what it shows, how it is asked, and who may ask what. */
import type { PatchesCommand } from '../../../machines/yard/patches/commands.ts';
import { PATCHES_PERMISSIONS } from '../../../machines/yard/patches/permissions.ts';
import { useLedger } from '../../live/ledger.ts';
import { useLive } from '../../live/store.ts';
import { type Asked, useCommand } from '../../live/use-command.ts';

export type PatchesHere = ReturnType<typeof useLedger<'patches'>> & {
  readonly asked: Asked;
  /** True when it was done; otherwise the reasons are in `asked.refusal`. */
  readonly put: (command: PatchesCommand, done: string) => Promise<boolean>;
  /** Why this person may not, or null. */
  readonly whyNot: (what: PatchesCommand['do']) => string | null;
};

export function usePatches(): PatchesHere {
  const book = useLedger('patches');
  const asked = useCommand();
  const me = useLive((live) => live.me);
  return {
    ...book,
    asked,
    put: (command, done) => asked.ask(() => book.ask(command), done),
    whyNot: (what) => {
      if (me === null) return 'Say who you are first (top of the page).';
      const roles = PATCHES_PERMISSIONS[what];
      return roles.includes(me.role) ? null : `This is for: ${roles.join(', ')}.`;
    },
  };
}
