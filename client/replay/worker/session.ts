/** One opened export: read once, run again in slices, and asked for moments and curves meanwhile. */
import { viewLine } from '../../../machines/line/view.ts';
import type { LineView } from '../../../machines/line/view.types.ts';
import type { ExportReader } from '../../../machines/record/export.types.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { whyDeclined } from './decline.ts';
import { Fold } from './fold.ts';
import type { Opened, SoFar } from './messages.ts';
import { type Recording, RecordingBuilder } from './recording.ts';
import { type Trace, traceOf } from './traces.ts';

export class Session {
  readonly opened: Opened;
  #recording: Recording;
  #fold: Fold | null;

  constructor(opened: Opened, recording: Recording, fold: Fold | null) {
    this.opened = opened;
    this.#recording = recording;
    this.#fold = fold;
  }

  /** The furthest tick that can be shown just now. */
  get reached(): number {
    return this.#fold?.tick ?? 0;
  }

  get done(): boolean {
    return this.#fold === null || this.#fold.done;
  }

  /** Runs the charts on for about `budgetMs`. Throws what the line throws. */
  work(budgetMs: number, untilTick?: number): void {
    this.#fold?.work(budgetMs, untilTick);
  }

  soFar(): SoFar | null {
    if (this.#fold === null) return null;
    const { ribbon, lots, batches } = viewLine(this.#fold.line);
    const { told, count } = this.#fold.differences;
    return {
      tick: this.#fold.tick,
      done: this.#fold.done,
      ribbon,
      lots,
      batches,
      differences: told.slice(),
      differing: count,
    };
  }

  /** The line as it was after `tick`; null when the charts are not run again over this record. */
  viewAt(tick: number, who: string): LineView | null {
    return this.#fold === null ? null : viewLine(this.#fold.lineAt(tick, who));
  }

  trace(tags: readonly string[], fromTick: number, toTick: number, columns: number): Trace {
    return traceOf(this.#recording, tags, fromTick, toTick, columns);
  }
}

/** Reads an export through. Throws ExportError (of machines/record/export.types.ts) when it cannot be read. */
export const openSession = async (
  reader: ExportReader,
  onProgress: (share: number) => void,
): Promise<Session> => {
  const { manifest } = reader;
  const scenario: Scenario = await reader.scenario();
  const builder = new RecordingBuilder();
  let entries = 0;
  for await (const batch of reader.entries()) {
    for (const entry of batch) builder.add(entry);
    entries += batch.length;
    onProgress(entries / Math.max(1, manifest.entries.count));
  }
  const recording = builder.done();
  const declined = whyDeclined(recording.opening, recording.brokenAt);
  const opened: Opened = {
    manifest,
    scenario,
    lastTick: recording.lastTick,
    entries,
    readingGroups: recording.readingGroups,
    tags: recording.tags,
    lines: recording.lines,
    ended: [...recording.factsAt.values()].some((facts) => facts.some((fact) => fact.is === 'shiftEnded')),
    declined,
  };
  return new Session(opened, recording, declined === null ? new Fold(recording, scenario) : null);
};
