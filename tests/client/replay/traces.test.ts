/** Curves: exact where there is room, and never without a peak where there is not. */
import { describe, expect, it } from 'vitest';
import { plotsOf } from '../../../client/replay/traces/plots.ts';
import { countUpTo, int32s } from '../../../client/replay/worker/columns.ts';
import { RecordingBuilder } from '../../../client/replay/worker/recording.ts';
import { traceOf } from '../../../client/replay/worker/traces.ts';
import type { Entry } from '../../../machines/record/entry.ts';

const TICKS = 10_000;
/** A flat weight with one reading of 500 kg, a tenth of a second long. */
const PEAK_TICK = 4321;

const group = (seq: number, from: number, to: number, rows: readonly (readonly [number, object])[]): Entry =>
  ({
    kind: 'readings',
    seq,
    atMs: to * 100,
    wall: '',
    prev: '',
    hash: '',
    body: { from, to, rows },
  }) as unknown as Entry;

const builder = new RecordingBuilder();
builder.add(group(1, 1, 10, [[1, { hopperKg: 12, mixC: 20 }]]));
builder.add(
  group(2, 11, 5000, [
    [PEAK_TICK, { hopperKg: 500 }],
    [PEAK_TICK + 1, { hopperKg: 12 }],
  ]),
);
builder.add(group(3, 5001, TICKS, [[9000, { mixC: 35 }]]));
const recording = builder.done();

describe('curves', () => {
  it('close up hold every tick, a value standing until the next', () => {
    const trace = traceOf(recording, ['hopperKg', 'mixC'], PEAK_TICK - 2, PEAK_TICK + 2, 100);
    expect(trace.exact).toBe(true);
    expect([...trace.ticks]).toEqual([4319, 4320, 4321, 4322, 4323]);
    expect([...(trace.values[0] ?? [])]).toEqual([12, 12, 500, 12, 12]);
    expect([...(trace.values[1] ?? [])]).toEqual([20, 20, 20, 20, 20]);
  });

  it.each([10, 37, 200, 900])('keep a peak of one tick in %i columns', (columns) => {
    const trace = traceOf(recording, ['hopperKg'], 1, TICKS, columns);
    expect(trace.exact).toBe(false);
    expect(trace.ticks).toHaveLength(columns * 2);
    expect(Math.max(...(trace.values[0] ?? []))).toBe(500);
    expect(Math.min(...(trace.values[0] ?? []))).toBe(12);
    expect([...trace.ticks]).toEqual([...trace.ticks].sort((a, b) => a - b));
  });

  it('are empty for an instrument that was never read, and bounded by the record', () => {
    const trace = traceOf(recording, ['oilC'], 0, TICKS * 5, 50);
    expect(trace.toTick).toBe(TICKS);
    expect([...(trace.values[0] ?? [])].every(Number.isNaN)).toBe(true);
  });

  it('share a picture by unit, switches by themselves', () => {
    expect(
      plotsOf(['hopperKg', 'flameSeen', 'mixC', 'bucketKg', 'oilFlowing']).map(({ tags }) => tags),
    ).toEqual([['hopperKg', 'bucketKg'], ['flameSeen', 'oilFlowing'], ['mixC']]);
  });
});

it('a column finds its place by value', () => {
  const column = int32s(2);
  for (const value of [1, 5, 5, 9]) column.push(value);
  expect([0, 1, 4, 5, 8, 9, 99].map((limit) => countUpTo(column, limit))).toEqual([0, 1, 1, 3, 3, 4, 4]);
});
