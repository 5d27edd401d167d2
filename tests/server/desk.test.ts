/** The front desk answers whatever is put on it, and lets nothing through that is not a command. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import { commandSchema } from '../../machines/line/commands.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { createDesk, type Desk } from '../../server/live/desk.ts';
import type { Runner } from '../../server/runner/runner.ts';
import { fakeScenario } from './support/fake-scenario.ts';

const KIM: Person = { id: 'kim', name: 'Kim', role: 'operator' };

/** A desk in front of a line that takes everything and remembers what came through. */
const deskBefore = (
  through: CommandEnvelope[],
  carryOut: () => Promise<{ ok: true }> = async () => ({ ok: true }),
): Desk =>
  createDesk(
    {
      scenario: fakeScenario(),
      command: async (envelope: CommandEnvelope) => {
        through.push(envelope);
        return carryOut();
      },
      run: async () => ({ ok: true }),
    } as unknown as Runner,
    () => undefined,
  );

/** Garbage, and things that look nearly like a command. */
const sentArb = fc.oneof(
  fc.jsonValue(),
  fc.record({ id: fc.oneof(fc.string(), fc.jsonValue()), command: fc.jsonValue() }),
  fc.record({
    id: fc.string({ minLength: 8, maxLength: 64 }),
    command: fc.record(
      {
        do: fc.oneof(
          fc.constantFrom('start', 'hold', 'dump', 'handOver', 'shelve', 'injectFault'),
          fc.string(),
        ),
        batches: fc.oneof(fc.integer(), fc.double()),
        reason: fc.string(),
        to: fc.string(),
        alarm: fc.string(),
        target: fc.jsonValue(),
      },
      { requiredKeys: ['do'] },
    ),
  }),
);

describe('desk', () => {
  it('answers everything, and passes on only what is a command', async () => {
    await fc.assert(
      fc.asyncProperty(sentArb, fc.nat(1e9), async (sent, n) => {
        const through: CommandEnvelope[] = [];
        // A console of its own each time, so that the limit on their number does not answer instead.
        const answer = await deskBefore(through).command(KIM, `console-${n}`, sent);
        expect(typeof answer.ok).toBe('boolean');
        if (!answer.ok) {
          expect(answer.because.length).toBeGreaterThan(0);
          expect(through).toEqual([]);
          return;
        }
        for (const { command, by } of through) {
          expect(commandSchema.parse(command)).toEqual(command);
          expect(by).toEqual({ person: 'kim', role: 'operator', console: `console-${n}` });
        }
        expect(through).toHaveLength(1);
      }),
      { numRuns: 500 },
    );
  });

  it('turns an error behind it into a refusal in words', async () => {
    const desk = deskBefore([], () => Promise.reject(new Error('disk I/O error')));
    const sent = { id: 'long-enough', command: { do: 'hold' } };
    expect(await desk.command(KIM, 'console-a', sent)).toEqual({
      ok: false,
      because: ['The server could not carry it out: disk I/O error'],
    });
  });

  it('passes an emergency stop on from a console where nobody has said who they are, and nothing else', async () => {
    const through: CommandEnvelope[] = [];
    const desk = deskBefore(through);
    const stop = { id: 'stop-0001', command: { do: 'emergencyStop' } };
    expect(await desk.command(null, 'console-a', stop)).toEqual({ ok: true });
    const by = { person: 'someone at this console', role: 'operator', console: 'console-a' };
    expect(through).toEqual([{ ...stop, by }]);
    for (const command of [
      { do: 'releaseEmergencyStop' },
      { do: 'hold' },
      { do: 'emergencyStop', now: true },
    ])
      expect(await desk.command(null, 'console-a', { id: 'other-001', command })).toMatchObject({
        ok: false,
      });
    expect(through).toHaveLength(1);
  });

  it('has room for an emergency stop from a console that asked for too much', async () => {
    const desk = deskBefore([]);
    const ask = (n: number, what: string) =>
      desk.command(KIM, 'console-a', { id: `command-${n}-x`, command: { do: what } });
    const answers = await Promise.all(Array.from({ length: 40 }, (_, n) => ask(n, 'hold')));
    expect(answers.at(-1)).toMatchObject({ ok: false });
    expect(await ask(99, 'emergencyStop')).toEqual({ ok: true });
    const stops = await Promise.all(Array.from({ length: 40 }, (_, n) => ask(100 + n, 'emergencyStop')));
    expect(stops.at(-1)).toMatchObject({ ok: false });
  });

  it("lets nobody sit at the stand-in's console", async () => {
    const through: CommandEnvelope[] = [];
    const desk = deskBefore(through);
    expect(desk.identify({ person: 'kim', console: 'stand-in' })).toMatchObject({
      answer: { ok: false },
      person: null,
    });
    const sent = { id: 'long-enough', command: { do: 'hold' } };
    expect(await desk.command(KIM, 'stand-in', sent)).toMatchObject({ ok: false });
    expect(through).toEqual([]);
  });

  it('allows twenty commands at once and then as many a second', async () => {
    const desk = deskBefore([]);
    const ask = (n: number) =>
      desk.command(KIM, 'console-a', { id: `command-${n}-x`, command: { do: 'hold' } });
    const answers = await Promise.all(Array.from({ length: 30 }, (_, n) => ask(n)));
    expect(answers.filter((a) => a.ok).length).toBeGreaterThanOrEqual(20);
    expect(answers.filter((a) => a.ok).length).toBeLessThan(25);
    await new Promise((go) => setTimeout(go, 300));
    expect((await ask(99)).ok).toBe(true);
  });
});
