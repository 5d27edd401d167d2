/** The shifts this server keeps, and their exports, fetched with the share that has come so far. */

export type ShiftListed = {
  readonly shift: number;
  readonly name: string;
  readonly date: string;
  readonly openedWall: string;
  readonly endedWall: string | null;
  /** The newest shift, not ended yet. */
  readonly running: boolean;
  readonly entries: number;
  readonly sealed: boolean;
  /** Null until it is sealed. */
  readonly seal?: { readonly countersigned: readonly unknown[] } | null;
  readonly batches: number;
  readonly lots: number;
  /** File the entries were moved to; null while they are here. */
  readonly archivedIn: string | null;
};

const isShift = (value: unknown): value is ShiftListed =>
  typeof value === 'object' &&
  value !== null &&
  'shift' in value &&
  typeof value.shift === 'number' &&
  'name' in value &&
  typeof value.name === 'string';

/** What the server said was wrong, as a sentence. */
const whyNot = async (response: Response): Promise<string> => {
  const said: unknown = await response.json().catch(() => null);
  const because = typeof said === 'object' && said !== null && 'because' in said ? said.because : null;
  return Array.isArray(because) ? because.join(' ') : `The server answered ${response.status}.`;
};

/** Newest first. Throws with a sentence when the server does not answer as it should. */
export async function fetchShifts(): Promise<readonly ShiftListed[]> {
  const response = await fetch('/api/shifts');
  if (!response.ok) throw new Error(await whyNot(response));
  const said: unknown = await response.json();
  const list: unknown = Array.isArray(said)
    ? said
    : typeof said === 'object' && said !== null && 'shifts' in said
      ? said.shifts
      : null;
  if (!Array.isArray(list)) throw new Error('The server answered something this page does not know.');
  return list.filter(isShift).sort((a, b) => b.shift - a.shift);
}

export const exportPath = (shift: number): string => `/api/shifts/${shift}/export`;

export async function fetchExport(shift: number, onShare: (share: number) => void): Promise<Blob> {
  const response = await fetch(exportPath(shift));
  if (!response.ok || response.body === null) throw new Error(await whyNot(response));
  const whole = Number(response.headers.get('content-length') ?? 0);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  let bytes = 0;
  const reader = response.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return new Blob(parts, { type: 'application/zip' });
    parts.push(value);
    bytes += value.length;
    if (whole > 0) onShare(bytes / whole);
  }
}
