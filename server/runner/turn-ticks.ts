/** The ticks of one turn: the world moved on and written down, and what to answer once that is durable. */
import type { CommandQueue, Waiting } from './command-queue.ts';
import { refused } from './command-queue.ts';
import type { Journal } from './journal.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';

export type Ticked<W> = {
  readonly world: W;
  readonly answers: readonly (() => void)[];
  /** The shift ended in one of them: none came after it. */
  readonly ended: boolean;
  /** The line itself threw, with these commands in hand. */
  readonly fault: null | { readonly error: unknown; readonly waiting: readonly Waiting[] };
};

/**
 * Turns `due` ticks with the queued commands in the first; of a shift that is over (`isOver`) one at most. A shift's
 * very first tick takes no commands: before it nothing of the plant has been read.
 */
export const turnTicks = <W extends AnyWorld>(
  engine: LineEngine<W>,
  journal: Journal,
  from: W,
  commands: CommandQueue,
  {
    due,
    isStanding,
    isOver,
  }: { readonly due: number; readonly isStanding: boolean; readonly isOver: boolean },
): Ticked<W> => {
  const unread = from.tick === 0 ? 1 : 0;
  const ticks = due === 0 && commands.length > 0 && isStanding ? 1 + unread : due;
  const answers: (() => void)[] = [];
  let world = from;
  let ended = false;
  for (let i = 0; i < ticks && !((isOver || ended) && i > 0); i++) {
    const waiting = i === unread ? commands.takeAll() : [];
    try {
      const next = engine.advance(
        world,
        waiting.map(({ envelope }) => envelope),
      );
      world = next.world;
      journal.tick(world.tick, next.changes, next.commands, next.facts);
      ended ||= next.facts.some((fact) => fact.is === 'shiftEnded');
      for (const { envelope, answer } of waiting) {
        const given = next.answers.find((one) => one.id === envelope.id)?.answer;
        answers.push(() => answer(given ?? refused('The line gave no answer to this command.')));
      }
    } catch (error) {
      return { world, answers, ended, fault: { error, waiting } };
    }
  }
  return { world, answers, ended, fault: null };
};
