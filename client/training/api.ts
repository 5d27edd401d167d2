/** Asking the server about training: answers with reasons, never a throw. */
import type { Answer } from '../../machines/live/protocol.ts';
import type { SessionAsk, StartAsk } from '../../machines/live/training.ts';
import { CONSOLE_ID } from '../live/line.ts';
import { liveStore } from '../live/store.ts';

const NO_ANSWER = 'The server does not answer: see whether the program still runs.';
const NO_SERVER = 'No connection to the server, so nothing was done. Try again when it is back.';

export type Got<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly because: readonly string[] };

const reasonsOf = (value: unknown, status: number): readonly string[] => {
  const because = (value as { because?: unknown } | null)?.because;
  return Array.isArray(because) ? because.map(String) : [`The server answered ${status}.`];
};

export async function get<T>(path: string): Promise<Got<T>> {
  try {
    const response = await fetch(path);
    const value: unknown = await response.json();
    return response.ok
      ? { ok: true, value: value as T }
      : { ok: false, because: reasonsOf(value, response.status) };
  } catch {
    return { ok: false, because: [NO_ANSWER] };
  }
}

async function post(path: string, body: unknown): Promise<unknown> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    const value: unknown = await response.json();
    return response.ok ? value : { ok: false, because: reasonsOf(value, response.status) };
  } catch {
    return { ok: false, because: [NO_SERVER] };
  }
}

const by = () => {
  const me = liveStore.get().me;
  return me === null ? null : { person: me.id, console: CONSOLE_ID };
};
const WHO: Answer = { ok: false, because: ['Say who you are first (top of the page).'] };

export async function askSession(session: string, ask: SessionAsk): Promise<Answer> {
  const who = by();
  if (who === null) return WHO;
  return (await post(`/api/training/sessions/${session}`, { by: who, ask })) as Answer;
}

export type Begun = { readonly ok: true; readonly session: string } | Exclude<Answer, { ok: true }>;

export async function startDrill(ask: Omit<StartAsk, 'by'>): Promise<Begun> {
  const who = by();
  if (who === null) return WHO as Exclude<Answer, { ok: true }>;
  return (await post('/api/training/sessions', { ...ask, by: who })) as Begun;
}

/** The line of a drill is a page of its own: it has its own live connection. */
export const linePath = (session: string): string => `/drill/${session}/`;
