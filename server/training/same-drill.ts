/** Whether an attempt can be turned again from its log: only by the plant and the drill it was made with. */
import { PHYSICS_VERSION } from '../../machines/record/version.ts';
import { PlainError } from '../plain-error.ts';
import type { DrillEngine } from './engine.ts';
import type { Opened } from './log.ts';

/** Why turning it again would give another course than it had, in words; null when it would give the same. */
export const whyNotSame = <R>(engine: DrillEngine<R>, opened: Opened): string | null => {
  const { program, physics, drill, drillDigest } = opened;
  if (physics !== PHYSICS_VERSION)
    return `it was made by ${program} with plant physics ${physics ?? 'of before they were noted'}, and this program has ${PHYSICS_VERSION}: turned again it would go another way.`;
  try {
    if (engine.digestOf(drill) !== drillDigest)
      return `the drill ${drill} or the shift it begins from has been changed since: turned again it would go another way.`;
  } catch (error) {
    if (error instanceof PlainError) return error.message;
    throw error;
  }
  return null;
};
