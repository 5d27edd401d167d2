/** The front desk: every command of every console passes here, whichever way it came. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import { type Answer, envelopeSchema, iAmSchema, runSchema } from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { messageOf } from '../plain-error.ts';
import type { Runner } from '../runner/runner.ts';
import { STAND_IN_CONSOLE } from '../runner/stand-in-console.ts';
import { createRateLimit, TOO_MANY } from './rate-limit.ts';

export type Desk = {
  /** People of the shift at hand. */
  readonly people: () => readonly Person[];
  readonly personOf: (id: string) => Person | null;
  /** Who a console said it is, remembered while the server runs. */
  readonly rememberedAt: (console: string) => Person | null;
  readonly identify: (who: unknown) => { answer: Answer; console: string; person: Person | null };
  /** False when a console asks too often. */
  readonly mayAsk: (console: string) => boolean;
  readonly command: (person: Person | null, console: string, envelope: unknown) => Promise<Answer>;
  readonly run: (person: Person | null, console: string, command: unknown) => Promise<Answer>;
};

const CONSOLES_REMEMBERED = 1000;
const refused = (...because: string[]): Answer => ({ ok: false, because });
const WHO = 'Say who you are first: choose a person at this console.';

/** An emergency stop is not kept waiting for a name; what is on record is that none was given. */
const SOMEONE: Person = {
  id: 'someone at this console',
  name: 'someone at this console',
  role: 'operator',
};
const isEmergencyStop = (sent: unknown): boolean =>
  (sent as { command?: { do?: unknown } | null } | null | undefined)?.command?.do === 'emergencyStop';

type Issues = { readonly issues: readonly { readonly path: PropertyKey[]; readonly message: string }[] };
/** Reasons from a failed validation, at most five. */
const reasonsOf = (error: Issues): string[] =>
  error.issues
    .slice(0, 5)
    .map(({ path, message }) => (path.length === 0 ? message : `${path.map(String).join('.')}: ${message}`));

export const createDesk = (runner: Runner, log: (line: string) => void): Desk => {
  const people = () => runner.scenario.people;
  const personOf = (id: string) => people().find((person) => person.id === id) ?? null;
  const remembered = new Map<string, string>();
  const limit = createRateLimit(() => performance.now());
  /** Emergency stops are counted apart: a console that asked for too much else must still have its stop. */
  const stopLimit = createRateLimit(() => performance.now());

  /** Nothing a person sends may throw past here. */
  const guarded = async (
    console: string,
    work: () => Promise<Answer>,
    allow = limit.allow,
  ): Promise<Answer> => {
    if (!allow(console)) return refused(TOO_MANY);
    try {
      return await work();
    } catch (error) {
      log(`A command failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      return refused(`The server could not carry it out: ${messageOf(error)}`);
    }
  };

  return {
    people,
    personOf,
    rememberedAt: (console) => personOf(remembered.get(console) ?? ''),
    identify: (who) => {
      const parsed = iAmSchema.safeParse(who);
      if (!parsed.success) return { answer: refused(...reasonsOf(parsed.error)), console: '', person: null };
      const { console } = parsed.data;
      if (console === STAND_IN_CONSOLE)
        return { answer: refused(`A console may not be called ${console}.`), console, person: null };
      const person = personOf(parsed.data.person);
      if (person === null)
        return { answer: refused(`${parsed.data.person} is not on the list of people.`), console, person };
      remembered.delete(console);
      remembered.set(console, person.id);
      if (remembered.size > CONSOLES_REMEMBERED) remembered.delete(remembered.keys().next().value as string);
      return { answer: { ok: true }, console, person };
    },
    mayAsk: (console) => limit.allow(console),
    command: (person, console, sent) => {
      const isStop = isEmergencyStop(sent);
      const who = person ?? (isStop ? SOMEONE : null);
      return guarded(
        console,
        async () => {
          if (who === null || console === STAND_IN_CONSOLE) return refused(WHO);
          const parsed = envelopeSchema.safeParse(sent);
          if (!parsed.success) return refused(...reasonsOf(parsed.error));
          const { id, command } = parsed.data;
          const envelope: CommandEnvelope = { id, by: { person: who.id, role: who.role, console }, command };
          return runner.command(envelope);
        },
        isStop ? stopLimit.allow : limit.allow,
      );
    },
    run: (person, console, sent) =>
      guarded(console, async () => {
        if (person === null) return refused(WHO);
        const parsed = runSchema.safeParse(sent);
        if (!parsed.success) return refused(...reasonsOf(parsed.error));
        return runner.run(parsed.data, person);
      }),
  };
};
