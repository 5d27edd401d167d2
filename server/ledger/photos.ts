/** Photographs over HTTP: taken in, stripped and kept by their SHA-256; given back as they were kept. */
import type { FastifyInstance, FastifyReply } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { createRateLimit, TOO_MANY } from '../live/rate-limit.ts';
import { problemSchema } from '../routes/schemas.ts';
import type { Store } from '../store/store.ts';
import { keepAttachment, readAttachment } from './attachments.ts';
import { stripPhoto } from './photo-strip.ts';

/** 8 MiB: what a telephone makes at most; the stripped one is never larger. */
export const PHOTO_LIMIT_BYTES = 8 * 1024 * 1024;

const photoParams = z.strictObject({ sha256: z.string().regex(/^[0-9a-f]{64}$/) });
const keptSchema = z.object({
  sha256: z.string().describe('Of what is kept: the name to attach it by'),
  bytes: z.int(),
  type: z.enum(['image/jpeg', 'image/png']),
  width: z.int(),
  height: z.int(),
  orientation: z.int().describe('1 to 8 as EXIF has it: how it is to be turned to be looked at'),
});

export const registerPhotos = (app: FastifyInstance, store: Store): void => {
  const limit = createRateLimit(() => performance.now());
  void app.register(async (photos) => {
    photos.addContentTypeParser(
      ['image/jpeg', 'image/png'],
      { parseAs: 'buffer', bodyLimit: PHOTO_LIMIT_BYTES },
      (_request, body, done) => done(null, body),
    );
    const api = photos.withTypeProvider<ZodTypeProvider>();

    api.post(
      '/api/photos',
      {
        bodyLimit: PHOTO_LIMIT_BYTES,
        errorHandler: (error, _request, reply) => {
          const status = error.statusCode ?? 500;
          const because =
            status === 413
              ? `The photograph is too large: at most ${PHOTO_LIMIT_BYTES / 1024 / 1024} MiB. Make it smaller first.`
              : status === 415
                ? 'Send a photograph as image/jpeg or image/png.'
                : error.message;
          return (reply as FastifyReply).code(status).send({ because: [because] });
        },
        schema: {
          summary: 'Keep a photograph (JPEG or PNG, at most 8 MiB), stripped of everything but the picture',
          response: { 200: keptSchema, 400: problemSchema, 429: problemSchema },
        },
      },
      async (request, reply) => {
        if (!limit.allow(request.ip)) return reply.code(429).send({ because: [TOO_MANY] });
        const body = request.body;
        const stripped = stripPhoto(Buffer.isBuffer(body) ? body : Buffer.alloc(0));
        if (!stripped.ok) return reply.code(400).send({ because: [stripped.why] });
        const { bytes, type, width, height, orientation } = stripped.photo;
        const sha256 = keepAttachment(store.where, bytes);
        return { sha256, bytes: bytes.length, type, width, height, orientation };
      },
    );

    api.get(
      '/api/photos/:sha256',
      { schema: { summary: 'A photograph as it was kept', params: photoParams } },
      async ({ params: { sha256 } }, reply) => {
        const bytes = readAttachment(store.where, sha256);
        if (bytes === null)
          return reply.code(404).send({
            because: [
              `The photograph ${sha256.slice(0, 16)}… is not in the data folder: fetch it from a backup or an export of its shift.`,
            ],
          });
        return reply
          .type(bytes[0] === 0xff ? 'image/jpeg' : 'image/png')
          .header('cache-control', 'private, max-age=31536000, immutable')
          .send(bytes);
      },
    );
  });
};
