/** The simulated bench over HTTP: readings of a logged sample, worked out to its truth; refused in words before. */
import Fastify from 'fastify';
import { serializerCompiler, validatorCompiler } from 'fastify-type-provider-zod';
import { describe, expect, it } from 'vitest';
import { sheetContext, workSheet } from '../../machines/lab/sheet-work.ts';
import type { LabState } from '../../machines/lab/state.ts';
import { registerBench } from '../../server/lab/bench-route.ts';
import type { PlantRunner } from '../../server/runner/runner.ts';
import type { Store } from '../../server/store/store.ts';
import { GOOD, LOT, TestLab } from '../lab/support/lab.ts';

const bench = (lab: TestLab, truth: typeof GOOD | null = GOOD) => {
  const app = Fastify();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  const runner = { plantClock: () => lab.at, benchTruth: () => truth } as unknown as PlantRunner;
  const store = { books: async () => ({ ledger: { lab: lab.state } }) } as unknown as Store;
  registerBench(app, { runner, store });
  return async (sample: number, sheet: string) => {
    const answer = await app.inject(`/api/lab/bench/${LOT}/${sample}?sheet=${sheet}`);
    return { status: answer.statusCode, body: answer.json() };
  };
};

describe('the simulated bench', () => {
  it('reads a sample with the test’s own error, says that it is simulated, and reads the same when asked again', async () => {
    const lab = new TestLab().fill().logAll().later();
    const read = bench(lab);
    const { status, body } = await read(3, 'extraction');
    expect(status).toBe(200);
    expect(body).toMatchObject({ simulated: true, words: expect.stringContaining('simulated bench') });
    const worked = workSheet(
      'extraction',
      body.readings,
      sheetContext(lab.state as LabState, lab.lot(), 3, lab.at),
    );
    const found = worked.ok
      ? worked.results.find((one) => one.property === 'residualBinderMixPct')?.value
      : null;
    // True 5.0 %; one operator's standard deviation of an extraction is 0.18 % (machines/lab/bench/precision.ts).
    expect(Math.abs((found ?? 99) - 5)).toBeLessThan(4 * 0.18);
    expect(found).not.toBe(5);
    expect((await read(3, 'extraction')).body).toEqual(body);
    lab.enter(3).does('isolde', {
      do: 'orderRetest',
      lot: LOT,
      sample: 3,
      test: 'binder content',
      reason: 'to see both',
    });
    expect((await read(3, 'extraction')).body.readings).not.toEqual(body.readings);
  });

  it('has nothing of a sample not logged, not there, or that the plant kept nothing of', async () => {
    const lab = new TestLab().fill();
    expect((await bench(lab)(3, 'extraction')).body.because[0]).toContain(
      'not on the bench before it is logged',
    );
    expect((await bench(lab)(33, 'extraction')).body.because[0]).toContain('no sample 33');
    expect((await bench(lab.logAll(), null)(3, 'extraction')).body.because[0]).toContain(
      'enter the readings by hand',
    );
    expect((await bench(lab)(3, 'tarot')).status).toBe(400);
  });
});
