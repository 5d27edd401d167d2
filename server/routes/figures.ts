/** The figures of the running plant that the lessons about vapour and heat work with. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { figuresOf } from '../../machines/mix/figures.ts';
import type { Runner } from '../runner/runner.ts';

const figuresSchema = z.object({
  figures: z.unknown().describe('Sizes, flows and limits of the plant, and its cutback mix'),
});

export const registerFigures = (app: FastifyInstance, runner: Pick<Runner, 'scenario'>): void => {
  app.withTypeProvider<ZodTypeProvider>().get(
    '/api/figures',
    {
      schema: {
        summary: 'Figures of plant and mix for the lessons',
        response: { 200: figuresSchema },
      },
    },
    async () => ({ figures: figuresOf(runner.scenario) }),
  );
};
