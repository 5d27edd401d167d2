/** Small records for tests. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import { CHAIN_START, type ChainEnd, type Sealed, sealEntry } from '../../machines/record/chain.ts';
import type { EntryContent } from '../../machines/record/entry.ts';
import { sha256 } from '../../server/digest.ts';

export const envelope = (id: string): CommandEnvelope => ({
  id,
  by: { person: 'kim', role: 'operator', console: 'console-a' },
  command: { do: 'hold' },
});

export const fact = (id: string): Fact => ({
  is: 'commandDone',
  id,
  command: 'hold',
  by: { person: 'kim', role: 'operator' },
});

export const OPENING: EntryContent = {
  kind: 'opening',
  body: {
    format: 1,
    program: 'test',
    physics: 1,
    engine: 'test',
    scenario: 'sample',
    scenarioDigest: sha256('sample'),
    seed: 1,
  },
};

export const readingsAt = (tick: number): EntryContent => ({
  kind: 'readings',
  body: { from: tick, to: tick, rows: [[tick, { hopperKg: tick % 100 }]] },
});

/** Seals contents one after another behind `start`. */
export const sealAll = (contents: readonly EntryContent[], start: ChainEnd = CHAIN_START): Sealed[] => {
  const out: Sealed[] = [];
  let end = start;
  for (const content of contents) {
    const sealed = sealEntry(end, content, end.seq * 100, '2026-05-04T06:00:00.000Z', sha256);
    out.push(sealed);
    end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
  }
  return out;
};

/** An opening and `n` entries of readings, commands and facts in turn. */
export const sampleRecord = (n: number): Sealed[] =>
  sealAll([
    OPENING,
    ...Array.from({ length: n }, (_, i): EntryContent => {
      const tick = Math.floor(i / 3) + 1;
      const id = `command-${tick}`;
      if (i % 3 === 0) return readingsAt(tick);
      if (i % 3 === 1) return { kind: 'command', body: { tick, envelope: envelope(id) } };
      return { kind: 'fact', body: { tick, fact: fact(id) } };
    }),
  ]);
