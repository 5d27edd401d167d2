/**
 * Controls held by a console that has gone away: when another console asks for them and the holder's has
 * not been heard of for a while, the server hands them over in its place, and notes that it did.
 */
import { randomUUID } from 'node:crypto';
import type { Answer } from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Runner, Shown } from '../runner/runner.ts';
import { STAND_IN_CONSOLE } from '../runner/stand-in-console.ts';

/** A reload of the page or a short loss of the network must not cost anyone the controls. */
export const AWAY_MS = 15_000;
const CONSOLES_REMEMBERED = 1000;

export type Presence = {
  readonly opened: (console: string) => void;
  readonly closed: (console: string) => void;
  /** It gave a command without a live connection. */
  readonly heard: (console: string) => void;
  /** Time since a console was last connected or heard of, ms; since the server began when it never was. */
  readonly awayMs: (console: string) => number;
};

export const createPresence = (monoMs: () => number): Presence => {
  const beganMs = monoMs();
  const open = new Map<string, number>();
  const lastMs = new Map<string, number>();
  const heard = (console: string) => {
    lastMs.delete(console);
    lastMs.set(console, monoMs());
    if (lastMs.size > CONSOLES_REMEMBERED) lastMs.delete(lastMs.keys().next().value as string);
  };
  return {
    heard,
    opened: (console) => open.set(console, (open.get(console) ?? 0) + 1),
    closed: (console) => {
      const left = (open.get(console) ?? 1) - 1;
      if (left > 0) open.set(console, left);
      else open.delete(console);
      heard(console);
    },
    awayMs: (console) => (open.has(console) ? 0 : monoMs() - (lastMs.get(console) ?? beganMs)),
  };
};

type Seat = Shown['view']['seat'];

/** Watches the seat; returns how to stop. */
export const handOverForTheAbsent = (
  runner: Runner,
  presence: Presence,
  command: (person: Person, console: string, envelope: unknown) => Promise<Answer>,
  awayMs = AWAY_MS,
): (() => void) => {
  let busy = false;
  /** The request the line did not grant: not tried again ten times a second. */
  let turnedDown = '';
  const consider = async ({ holder, askedBy }: Seat): Promise<void> => {
    if (holder === null || askedBy === null || holder.console === STAND_IN_CONSOLE) return;
    const person = runner.scenario.people.find((p) => p.id === holder.person);
    if (person === undefined || presence.awayMs(holder.console) < awayMs) return;
    const request = `${holder.console} ${askedBy.console}`;
    if (request === turnedDown) return;
    const seconds = Math.round(presence.awayMs(holder.console) / 1000);
    const id = `absent-${randomUUID()}`;
    const sent = { id, command: { do: 'handOver', to: askedBy.console } };
    const answer = await command(person, holder.console, sent);
    turnedDown = answer.ok ? '' : request;
    if (answer.ok)
      runner.note(
        'controls handed over',
        `by the server: the console of ${holder.name} has been away for ${seconds} s and ${askedBy.name} asked for them`,
      );
  };
  return runner.onShown(({ view, run }) => {
    if (busy || run.trouble !== null) return;
    busy = true;
    void consider(view.seat).finally(() => {
      busy = false;
    });
  });
};
