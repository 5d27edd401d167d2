/** Pages that stand alone, to take away as one HTML file each. */
import { readFile } from 'node:fs/promises';
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { PAGES, pageFile } from '../pages.ts';
import { problemSchema } from './schemas.ts';

export const registerPages = (app: FastifyInstance): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();
  api.get(
    '/api/pages/:name',
    {
      schema: {
        summary: `A page that works from a disk without a server (${PAGES.join(', ')}), as a download`,
        params: z.strictObject({ name: z.enum(PAGES) }),
        response: { 200: z.any(), 404: problemSchema },
      },
    },
    async ({ params: { name } }, reply) => {
      let html: Buffer;
      try {
        html = await readFile(pageFile(name));
      } catch {
        return reply
          .code(404)
          .send({ because: [`The page ${name} has not been built: start the program with npm start.`] });
      }
      // A download and nothing else: as a page of this server it would be under another content policy.
      return reply
        .header('content-type', 'text/html; charset=utf-8')
        .header('content-disposition', `attachment; filename="patchyard-${name}.html"`)
        .header('cache-control', 'no-cache')
        .send(html);
    },
  );
};
