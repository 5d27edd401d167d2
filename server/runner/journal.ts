/** Gathers what happened since the last commit, seals it into the chain and has the store make it durable. */
import type { ReadingChanges } from '../../machines/field/tags.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import { type ChainEnd, type Sealed, sealEntry } from '../../machines/record/chain.ts';
import type { EntryContent, OpeningBody } from '../../machines/record/entry.ts';
import {
  type Draft,
  flush,
  type Recorder,
  recorderAfter,
  recordTick,
} from '../../machines/record/recorder.ts';
import { sha256 } from '../digest.ts';
import type { Store } from '../store/store.ts';

/** ISO 8601 wall time to write on an entry of that plant time. */
export type WallOf = (atMs: number) => string;

export class Journal {
  #store: Store;
  #wallOf: WallOf;
  /** Newest entry that is durable. */
  #end: ChainEnd;
  #recorder: Recorder;
  #drafts: Draft[] = [];
  /** Sealed but not yet known to be durable: after a failed append the very same entries are tried again. */
  #sealed: Sealed[] = [];

  /** Goes on behind `end`, with everything up to and including `tick` in the record. */
  constructor(store: Store, wallOf: WallOf, end: ChainEnd, tick: number) {
    this.#store = store;
    this.#wallOf = wallOf;
    this.#end = { seq: end.seq, hash: end.hash };
    this.#recorder = recorderAfter(tick);
  }

  get end(): ChainEnd {
    return this.#end;
  }

  /** Entries that wait for a commit; readings still being grouped do not count. */
  get waiting(): number {
    return this.#drafts.length + this.#sealed.length;
  }

  /** Begins a shift, whose ticks count from 1 again. */
  opening(body: OpeningBody): void {
    this.flushReadings();
    this.#recorder = recorderAfter(0);
    this.#drafts.push({ content: { kind: 'opening', body }, atMs: 0 });
  }

  /** A seal, a countersignature, a change of key: whatever is made outside the ticks. */
  add(content: EntryContent, atMs: number): void {
    this.#drafts.push({ content, atMs });
  }

  note(what: string, detail: string, atMs: number): void {
    this.#drafts.push({ content: { kind: 'note', body: { what, detail } }, atMs });
  }

  tick(
    tick: number,
    changes: ReadingChanges | null,
    commands: readonly CommandEnvelope[],
    facts: readonly Fact[],
  ): void {
    recordTick(this.#recorder, tick, changes, commands, facts, this.#drafts);
  }

  /** Ends the group of readings now, before its second is over. */
  flushReadings(): void {
    flush(this.#recorder, this.#drafts);
  }

  /** Seals and appends what waits. On an error nothing is lost: call it again. */
  async commit(): Promise<void> {
    const lastSealed = this.#sealed.at(-1)?.entry ?? this.#end;
    let end: ChainEnd = { seq: lastSealed.seq, hash: lastSealed.hash };
    for (const { content, atMs } of this.#drafts) {
      const sealed = sealEntry(end, content, atMs, this.#wallOf(atMs), sha256);
      this.#sealed.push(sealed);
      end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
    }
    this.#drafts = [];
    if (this.#sealed.length === 0) return;
    await this.#store.append(this.#sealed);
    this.#sealed = [];
    this.#end = end;
  }
}
