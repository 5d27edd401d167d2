/** The list of shifts as the server gives it, and what can be signed there. */
import type { Answer } from '../../machines/live/protocol.ts';
import { CONSOLE_ID } from '../live/line.ts';

export type Signed = {
  readonly seq: number;
  readonly wall: string;
  readonly by: { readonly person: string };
  readonly remark: string;
};

export type ShiftRow = {
  readonly ordinal: number;
  readonly shift: number;
  readonly name: string;
  readonly date: string;
  readonly endedWall: string | null;
  readonly running: boolean;
  readonly entries: number;
  readonly sealed: boolean;
  readonly root: string | null;
  readonly seal: null | {
    readonly seq: number;
    readonly wall: string;
    readonly key: string;
    readonly closed: 'in order' | 'late';
    readonly by: { readonly person: string; readonly role: string } | null;
    readonly remark: string;
    readonly countersigned: readonly Signed[];
  };
  readonly archivedIn: string | null;
};

/** Null when the server could not be asked. */
export async function fetchShifts(): Promise<readonly ShiftRow[] | null> {
  try {
    const response = await fetch('/api/shifts');
    const rows: unknown = response.ok ? await response.json() : null;
    return Array.isArray(rows) ? (rows as ShiftRow[]) : null;
  } catch {
    return null;
  }
}

const NOT_REACHED: Answer = {
  ok: false,
  because: ['The server could not be reached: try again in a moment.'],
};

/** Puts a person's name to a shift: a late seal or a countersignature. Never throws. */
export async function sign(
  shift: number,
  what: 'seal' | 'countersignature',
  person: string,
  remark: string,
): Promise<Answer> {
  try {
    const response = await fetch(`/api/shifts/${shift}/${what}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ by: { person, console: CONSOLE_ID }, remark }),
    });
    const answer = (await response.json()) as Partial<{ ok: boolean; because: string[] }>;
    if (answer.ok === true) return { ok: true };
    return { ok: false, because: answer.because ?? ['The server did not say why.'] };
  } catch {
    return NOT_REACHED;
  }
}
