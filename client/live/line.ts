/** The running connection: who this console is, what it sends, and where what it hears goes. */
import type { Command } from '../../machines/line/commands.ts';
import type { Answer, RunCommand } from '../../machines/live/protocol.ts';
import { recall, remember } from './memory.ts';
import { bandStore, barredStore, drillConsole, SESSION } from './session.ts';
import { openDriver } from './socket.ts';
import { heard, liveStore } from './store.ts';

export function newId(): string {
  // randomUUID exists only on secure origins and loopback; the fallback keeps other origins working.
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID();
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, '0')).join(
    '',
  );
}

function ownConsoleId(): string {
  const inDrill = drillConsole();
  if (inDrill !== null) return inDrill;
  const known = recall('console');
  if (known !== null && known.length >= 8) return known;
  const fresh = newId();
  remember('console', fresh);
  return fresh;
}

export const CONSOLE_ID = ownConsoleId();

/** The person the server last took us for; the list of people may come after that answer. */
let accepted: string | null = null;

const driver = openDriver(CONSOLE_ID, {
  up: () => {
    heard({ heard: 'linkUp' });
    const person = liveStore.get().me?.id ?? recall('person');
    if (person !== null)
      void iAm(person).then((answer) => barredStore.set(answer.ok ? null : answer.because));
  },
  down: () => heard({ heard: 'linkDown' }),
  hello: (hello) => {
    const me = hello.me ?? liveStore.get().me ?? hello.people.find((p) => p.id === accepted) ?? null;
    heard({ heard: 'hello', hello: { ...hello, me } });
  },
  state: (state) => heard({ heard: 'state', state }),
  drill: (band) => bandStore.set(band),
  change: (change) => {
    const hadGap = liveStore.get().gap;
    heard({ heard: 'change', change });
    if (!hadGap && liveStore.get().gap) driver.again();
  },
});

/** Tells the server who sits at this console. */
export async function iAm(person: string): Promise<Answer> {
  const answer = await driver.iAm(person);
  if (answer.ok) {
    accepted = person;
    const another = recall('person') !== person;
    remember('person', person);
    // In a drill the console is the person's seat: another person sits at another console.
    if (SESSION !== null && another) location.reload();
    const me = liveStore.get().people.find((p) => p.id === person);
    if (me !== undefined) heard({ heard: 'me', me });
  }
  return answer;
}

/** Sends one command with an id of its own; resolves with the line's answer and never throws. */
export const give = (command: Command): Promise<Answer> => driver.command({ id: newId(), command });

export const runLine = (run: RunCommand): Promise<Answer> => driver.run(run);
