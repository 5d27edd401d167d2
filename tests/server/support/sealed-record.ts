/** Records of several sealed shifts for tests of keeping: true chain and chunk digests, a seal whose signature is none. */
import { createHash } from 'node:crypto';
import type { Fact } from '../../../machines/line/facts.ts';
import { CHAIN_START, type ChainEnd, type Sealed, sealEntry } from '../../../machines/record/chain.ts';
import { chunksOf } from '../../../machines/record/chunks.ts';
import type { EntryContent } from '../../../machines/record/entry.ts';
import { lineOf } from '../../../machines/record/line-text.ts';
import { sha256 } from '../../../server/digest.ts';
import { envelope, fact, OPENING } from '../../record/samples.ts';

const WHO = { person: 'kim', role: 'operator' } as const;

/** Two batches into one lot named after the day, the readings of `seconds` seconds around them. */
export const contentsOf = (day: string, seconds: number): EntryContent[] => {
  const lot = `${day.slice(2).replaceAll('-', '')}-1`;
  const facts: [number, Fact][] = [
    [1, { is: 'shiftOpened', shift: 'sample', date: day, startsAt: '06:00' }],
    [2, { is: 'lotOpened', lot, mix: 'pen-mix', mixVersion: 1, family: 'emulsion', bay: 1, samplesAtKg: [] }],
    ...[1, 2].flatMap((batch): [number, Fact][] => [
      [batch * 3, { is: 'batchStarted', batch, mix: 'pen-mix', mixVersion: 1, lot, by: WHO }],
      [
        batch * 3 + 1,
        {
          is: 'partWeighed',
          batch,
          part: {
            material: 'emulsion-k1',
            targetKg: 50,
            weighedKg: 52,
            accepted: { by: { person: 'sam', role: 'supervisor' }, reason: 'within the mix' },
          },
        },
      ],
      [batch * 3 + 2, { is: 'massMoved', from: 'mixer', to: `lot:${lot}`, grams: 700_000, material: 'mix' }],
    ]),
    [seconds, { is: 'shiftEnded', by: WHO }],
  ];
  return [
    OPENING,
    ...Array.from({ length: seconds }, (_, i): EntryContent[] => {
      const to = (i + 1) * 10;
      const rows = Array.from({ length: i % 3 }, (_row, k): [number, object] => [
        to - 9 + k,
        { hopperKg: (i * 7 + k) % 900, mixerMotorA: 40 + (k % 2) / 2, sightBlackPct: -0.25 * i },
      ]);
      const here = facts.filter(([second]) => second === i + 1);
      return [
        { kind: 'readings', body: { from: to - 9, to, rows } },
        ...(i % 50 === 9
          ? ([
              { kind: 'command', body: { tick: to, envelope: envelope(`${day}-${i}`) } },
              { kind: 'fact', body: { tick: to, fact: fact(`${day}-${i}`) } },
            ] as EntryContent[])
          : []),
        ...here.map(([, happened]): EntryContent => ({ kind: 'fact', body: { tick: to, fact: happened } })),
      ];
    }).flat(),
  ];
};

const sha256Stream = () => {
  const running = createHash('sha256');
  return {
    update: (bytes: Uint8Array): void => {
      running.update(bytes);
    },
    digest: () => running.digest(),
  };
};

const sealContent = (shift: readonly Sealed[]): EntryContent => {
  const first = shift[0]?.entry;
  const last = shift.at(-1)?.entry;
  if (first === undefined || last === undefined) throw new Error('nothing to seal');
  const readings = shift
    .filter(({ entry }) => entry.kind === 'readings')
    .map(({ entry, text }) => ({ seq: entry.seq, line: Buffer.from(lineOf(text, entry.hash)) }));
  return {
    kind: 'seal',
    body: {
      format: 1,
      shift: first.seq,
      first: first.seq,
      last: last.seq,
      count: shift.length,
      head: last.hash,
      root: sha256(`root of ${first.seq}`),
      chunks: chunksOf(readings, { sha256Stream }),
      prevSeal: null,
      closed: 'in order',
      by: WHO,
      remark: '',
      key: sha256('key'),
      publicKey: '',
      signature: '',
    },
  };
};

/** Entries of one shift a day, each sealed; a last one that still runs when `running`. */
export const sealedRecord = (days: readonly string[], seconds: number, running = false): Sealed[] => {
  const all: Sealed[] = [];
  let end: ChainEnd = CHAIN_START;
  const add = (content: EntryContent, day: string, i: number): Sealed => {
    // A live wall clock: not on the second, and now and then a little apart.
    const wall = new Date(Date.parse(`${day}T06:00:00.000Z`) + i * 1003).toISOString();
    const atMs = content.kind === 'readings' ? content.body.to * 100 : i * 100;
    const sealed = sealEntry(end, content, atMs, wall, sha256);
    end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
    all.push(sealed);
    return sealed;
  };
  for (const [d, day] of days.entries()) {
    const contents = contentsOf(day, seconds);
    const runs = running && d === days.length - 1;
    const shift = (runs ? contents.slice(0, -1) : contents).map((content, i) => add(content, day, i));
    if (!runs) add(sealContent(shift), day, shift.length);
  }
  return all;
};

export const DAYS = ['2026-05-04', '2026-05-05', '2026-05-06'] as const;
