/** The best blend of bins into a band over HTTP. It asks nothing of the plant and leaves nothing in the record. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { blendQuestionSchema } from '../../machines/yard/mixes/blend.schema.ts';
import { type BlendAnswer, bestBlend } from '../../machines/yard/mixes/blend.ts';
import { blendProblem } from '../../machines/yard/mixes/blend-problem.ts';
import { blendSolver } from './blend-solver.ts';

const answerSchema = z
  .object({ kind: z.enum(['wrong', 'fits', 'does not fit']) })
  .loose()
  .describe('Shares and sieves of the best blend, or what stands in the way and what would mend it');

export const registerBlend = (app: FastifyInstance): void => {
  app.withTypeProvider<ZodTypeProvider>().post(
    '/api/mixes/blend',
    {
      schema: {
        summary: 'The blend of bins that lies nearest to the target of a grading band',
        tags: ['yard'],
        body: blendQuestionSchema,
        response: { 200: answerSchema },
      },
    },
    async (request): Promise<BlendAnswer> => bestBlend(blendProblem(request.body), await blendSolver()),
  );
};
