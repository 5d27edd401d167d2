/** Every command is answered once, every refusal says why in words, and a refused command changes nothing it asked for. */
import type { Checker } from './checker.ts';

/** Shorter than this is no reason a person could act on. */
const FEWEST_LETTERS = 9;

export const refusalChecker = (): Checker => ({
  name: 'refusals',
  look: ({ advanced }) => {
    if (advanced.answers.length !== advanced.commands.length)
      return `${advanced.commands.length} commands got ${advanced.answers.length} answers`;
    for (const [at, { id, answer }] of advanced.answers.entries()) {
      const envelope = advanced.commands[at];
      if (envelope?.id !== id) return `command ${envelope?.id} was answered as ${id}`;
      const done = advanced.facts.some((fact) => fact.is === 'commandDone' && fact.id === id);
      const refused = advanced.facts.find((fact) => fact.is === 'commandRefused' && fact.id === id);
      if (answer.ok) {
        if (!done || refused !== undefined)
          return `${envelope.command.do} was carried out, the facts say otherwise`;
        continue;
      }
      if (done || refused === undefined) return `${envelope.command.do} was refused, the facts say otherwise`;
      if (answer.because.length === 0) return `${envelope.command.do} was refused without a reason`;
      const poor = answer.because.find((reason) => reason.trim().length < FEWEST_LETTERS);
      if (poor !== undefined) return `${envelope.command.do} was refused with "${poor}", which helps nobody`;
    }
    return null;
  },
});
