/** Why this console cannot give a command just now, in words: who is asking, what the role may, who holds the seat. */
import type { CommandName } from '../../machines/line/commands.ts';
import type { SeatView } from '../../machines/line/view.types.ts';
import { mayGive, PERMISSIONS, WITHOUT_CONTROLS } from '../../machines/people/permissions.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';

export type Standpoint = {
  readonly me: Person | null;
  readonly seat: SeatView;
  readonly consoleId: string;
};

export const holdsControls = ({ me, seat, consoleId }: Standpoint): boolean =>
  me !== null && seat.holder !== null && seat.holder.console === consoleId;

const article = (word: string): string => (/^[aeiou]/i.test(word) ? `an ${word}` : `a ${word}`);

/** Empty when nothing on this side stands against it; the line may still refuse. */
export function whyNot(name: CommandName, at: Standpoint): readonly string[] {
  if (at.me === null) return ['Say who you are first (top of the page).'];
  if (!mayGive(at.me.role, name)) {
    const roles = PERMISSIONS[name].join(', ');
    return [`${at.me.name} is ${article(at.me.role)}; this is for: ${roles}.`];
  }
  if (WITHOUT_CONTROLS.includes(name) || holdsControls(at)) return [];
  if (at.seat.standIn !== null)
    return ['A stand-in runs the line. Take the controls first (top of the page).'];
  if (at.seat.holder === null) return ['Nobody has the controls. Take them first (top of the page).'];
  return [`${at.seat.holder.name} has the controls. Ask for them (top of the page).`];
}

/** Who may run a batch may also pause the plant, change how fast it runs or open a shift, with or without the controls. */
export function whyNotRun(
  me: Person | null,
  what: 'changing how fast the plant runs' | 'opening a shift',
): readonly string[] {
  if (me === null) return ['Say who you are first (top of the page).'];
  if (mayGive(me.role, 'start')) return [];
  const roles = PERMISSIONS.start.join(', ');
  return [`${me.name} is ${article(me.role)}; ${what} is for: ${roles}.`];
}
