/** Begins the next shift from a console's request: its files are kept, its opening entry waits for the next commit. */
import type { RunCommand } from '../../machines/live/protocol.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { withSpecifications } from '../scenarios/with-specifications.ts';
import type { Store } from '../store/store.ts';
import type { Journal } from './journal.ts';
import type { AnyWorld, LineEngine } from './line-engine.ts';
import { choicesOf, keepScenarios, nextShiftOf, type ShiftsOffered } from './next-shift.ts';
import { plannedShift } from './planned-shift.ts';
import { freshSecret } from './secret.ts';

export type NextShift = Extract<RunCommand, { do: 'nextShift' }>;

/** What the next shift follows on. */
export type After<W extends AnyWorld> = {
  readonly engine: LineEngine<W>;
  readonly store: Store;
  readonly world: W;
  readonly files: Scenario;
  readonly offered: ShiftsOffered;
  readonly journal: Journal;
};

export type NextBegun<W extends AnyWorld> =
  | { readonly ok: true; readonly files: Scenario; readonly scenario: Scenario; readonly world: W }
  | { readonly ok: false; readonly because: readonly string[] };

/** `by`: who opens it, in words. May throw when files or record cannot be read. */
export const beginNext = async <W extends AnyWorld>(
  { engine, store, world, files, offered, journal }: After<W>,
  { shift: id, planned, afterDays }: NextShift,
  by: string,
): Promise<NextBegun<W>> => {
  const choices = choicesOf(files, offered);
  if (id !== undefined && !choices.some((one) => one.id === id))
    return {
      ok: false,
      because: [`There is no shift ${id}: there are ${choices.map((one) => one.id).join(', ')}.`],
    };
  const own = id === undefined || id === files.shift.id ? files : offered.load(id);
  const plan = planned === true ? plannedShift((await store.books()).ledger, own) : null;
  if (plan?.ok === false) return plan;
  const next = plan === null ? own : withSpecifications(plan.files);
  const begun = await nextShiftOf(store, next, by, { afterDays, notBefore: plan?.date });
  const start = { ...engine.startAfter?.(world), secret: freshSecret() };
  const made = engine.createWorld(begun.scenario, start);
  await keepScenarios(store, next, begun);
  journal.opening(begun.opening);
  return { ok: true, files: next, scenario: begun.scenario, world: made };
};
