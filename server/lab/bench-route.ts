/** The simulated bench over HTTP: raw readings for a sample of the simulated plant, for whoever has no laboratory. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { benchReadings } from '../../machines/lab/bench/index.ts';
import { lotIn } from '../../machines/lab/lots.ts';
import { SHEET_IDS } from '../../machines/lab/sheet-ids.ts';
import { sheetContext } from '../../machines/lab/sheet-work.ts';
import { seededRng } from '../../machines/lab/standin.ts';
import type { LabState } from '../../machines/lab/state.ts';
import { problemSchema } from '../routes/schemas.ts';
import type { PlantRunner } from '../runner/runner.ts';
import type { Store } from '../store/store.ts';

/** Test error of a good technician. */
const ERROR = 1;

const benchSchema = z.object({
  simulated: z.literal(true),
  words: z.string(),
  readings: z.record(z.string(), z.union([z.string(), z.number(), z.null()])),
});

export const registerBench = (
  app: FastifyInstance,
  { runner, store }: { readonly runner: PlantRunner; readonly store: Store },
): void => {
  app.withTypeProvider<ZodTypeProvider>().get(
    '/api/lab/bench/:lot/:sample',
    {
      schema: {
        summary: 'What the simulated bench reads on a sample of the simulated plant, with its test error',
        params: z.strictObject({
          lot: z.string().min(1).max(20),
          sample: z.coerce.number().int().min(1).max(50),
        }),
        querystring: z.strictObject({ sheet: z.enum(SHEET_IDS) }),
        response: { 200: benchSchema, 404: problemSchema },
      },
    },
    async ({ params: { lot: id, sample: n }, query: { sheet } }, reply) => {
      const lab = (await store.books()).ledger.lab as LabState;
      const lot = lotIn(lab, id);
      const sample = lot?.samples.find((one) => one.n === n);
      const because = (...words: string[]) => reply.code(404).send({ because: words });
      if (lot === undefined || sample === undefined)
        return because(`The lab has no sample ${n} of lot ${id}.`);
      if (sample.state !== 'logged')
        return because(
          `Sample ${n} of lot ${id} is ${sample.state}: it is not on the bench before it is logged.`,
        );
      const truth = runner.benchTruth(id, n);
      if (truth === null)
        return because(
          `The simulated plant kept nothing of sample ${n} of lot ${id}: enter the readings by hand.`,
        );
      // A test made again has its own error; asking twice for the same one gives the same readings.
      const made = lot.worksheets.filter((one) => one.sample === n && one.aside === null).length;
      const rng = seededRng(lot.shift, `${id}/${n}/${sheet}/${made}`);
      const readings = benchReadings(
        sheet,
        truth,
        rng,
        ERROR,
        sheetContext(lab, lot, n, runner.plantClock()),
      );
      reply.header('cache-control', 'no-store');
      return {
        simulated: true as const,
        words:
          'Read from the simulated bench: the true values of the simulated mix, with the test’s own error.',
        readings: { ...readings },
      };
    },
  );
};
