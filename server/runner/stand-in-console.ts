/** The stand-in operator sits at a console of its own inside the line; no person's console may bear its name. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';

export const STAND_IN_CONSOLE = 'stand-in';

/** True for a command the line gave itself: on record like any other, but made again when the line runs again. */
export const isOfStandIn = ({ by }: CommandEnvelope): boolean => by.console === STAND_IN_CONSOLE;
