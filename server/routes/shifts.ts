/** Shifts of the record over HTTP: the list, exports, closing late, countersigning, and the key that seals. */
import { Readable } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import type { Answer } from '../../machines/live/protocol.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { EntryContent, Signer } from '../../machines/record/entry.ts';
import { exportShift, spanNamed } from '../export/export-shift.ts';
import type { Desk } from '../live/desk.ts';
import { PlainError } from '../plain-error.ts';
import type { PlantRunner } from '../runner/runner.ts';
import { keyInfoOf } from '../seal/key-file.ts';
import { countersignatureOf, lateSealOf } from '../seal/seal-shift.ts';
import { shiftRows } from '../seal/shift-rows.ts';
import type { Store } from '../store/store.ts';
import { answerSchema, problemSchema } from './schemas.ts';

export type ShiftParts = { readonly runner: PlantRunner; readonly store: Store; readonly desk: Desk };

const whoSchema = z.strictObject({ person: z.string().min(1).max(60), role: z.string().max(40) });

export const shiftRowSchema = z.object({
  ordinal: z.int().describe('1 for the first shift of the record'),
  shift: z.int().describe('Entry that opens it: its name in the record'),
  id: z.string(),
  name: z.string(),
  date: z.string(),
  openedWall: z.string(),
  endedWall: z.string().nullable().describe('Null while it runs, and when it broke off'),
  running: z.boolean().describe('The newest shift, not ended yet'),
  entries: z.int(),
  last: z.int(),
  batches: z.int(),
  lots: z.int(),
  sealed: z.boolean(),
  head: z
    .string()
    .nullable()
    .describe('Hash of its last entry; null when its entries are archived and unsealed'),
  root: z.string().nullable(),
  seal: z
    .object({
      seq: z.int(),
      wall: z.string(),
      key: z.string().describe('Fingerprint of the key it is sealed with'),
      closed: z.enum(['in order', 'late']),
      by: whoSchema.nullable(),
      remark: z.string(),
      countersigned: z.array(z.object({ seq: z.int(), wall: z.string(), by: whoSchema, remark: z.string() })),
    })
    .nullable(),
  archivedIn: z.string().nullable(),
});
export type ShiftRow = z.infer<typeof shiftRowSchema>;

const shiftParams = z.strictObject({
  shift: z.coerce.number().int().min(1).describe('Entry that opens the shift'),
});
const signSchema = z.strictObject({
  by: z.strictObject({ person: z.string().min(1).max(60), console: z.string().min(4).max(64) }),
  remark: z.string().trim().max(1000).default(''),
});

export const registerShifts = (app: FastifyInstance, { runner, store, desk }: ShiftParts): void => {
  const api = app.withTypeProvider<ZodTypeProvider>();

  api.get(
    '/api/shifts',
    {
      schema: {
        summary: 'Shifts of the record, the oldest first',
        response: { 200: z.array(shiftRowSchema) },
      },
    },
    async () => [...(await shiftRows(store))],
  );

  api.get(
    '/api/key',
    {
      schema: {
        summary: 'The public key shifts are sealed with, and its fingerprint',
        response: { 200: z.object({ fingerprint: z.string(), publicKey: z.string() }), 404: problemSchema },
      },
    },
    async (_request, reply) => {
      const info = keyInfoOf(store.where);
      return info === null ? reply.code(404).send({ because: ['No key has been made yet.'] }) : info;
    },
  );

  api.get(
    '/api/shifts/:shift/export',
    {
      schema: {
        summary: 'The shift as one zip; unsealed as far as it goes when it still runs',
        params: shiftParams,
      },
    },
    async ({ params: { shift } }, reply) => {
      const span = await spanNamed(store, `#${shift}`).catch((error) => error as Error);
      if (span instanceof PlainError) return reply.code(404).send({ because: [span.message] });
      if (span instanceof Error) throw span;
      if (span.archivedIn !== null)
        return reply
          .code(404)
          .send({ because: [`This shift was moved to ${span.archivedIn}: that file is its export.`] });
      // Read through first: once bytes have gone out, damage could only be told by breaking off.
      for await (const _text of store.texts(span.shift, span.covered));
      const name = `shift-${span.ordinal}-${span.day}.zip`;
      return reply
        .type('application/zip')
        .header('content-disposition', `attachment; filename="${name}"`)
        .header('cache-control', 'no-store')
        .send(Readable.from(exportShift(store, span)));
    },
  );

  /** Whoever asks, as a signer; an answer that says no instead. */
  const signerOf = (by: { person: string; console: string }): Signer | Answer => {
    if (!desk.mayAsk(by.console)) return { ok: false, because: ['Too many requests: wait a moment.'] };
    const person = desk.personOf(by.person);
    if (person === null) return { ok: false, because: [`${by.person} is not on the list of people.`] };
    return { person: person.id, role: person.role };
  };
  const signed = async (
    by: { person: string; console: string },
    make: (key: PlantKey, signer: Signer) => Promise<EntryContent>,
  ): Promise<Answer> => {
    const signer = signerOf(by);
    return 'ok' in signer ? signer : runner.append((key) => make(key, signer));
  };

  api.post(
    '/api/shifts/:shift/seal',
    {
      schema: {
        summary: 'Close and seal a shift that broke off; the remark says how it did',
        params: shiftParams,
        body: signSchema,
        response: { 200: answerSchema, 400: problemSchema },
      },
    },
    async ({ params: { shift }, body: { by, remark } }) =>
      signed(by, async (key, signer) => {
        if (!mayGive(signer.role as Parameters<typeof mayGive>[0], 'endShift'))
          throw new PlainError(
            `A shift is closed by somebody who may lead the line, and you are here as ${signer.role}.`,
          );
        return lateSealOf(store, key, shift, signer, remark);
      }),
  );

  api.post(
    '/api/shifts/:shift/countersignature',
    {
      schema: {
        summary: 'Countersign a sealed shift as its supervisor; never by the person who closed it',
        params: shiftParams,
        body: signSchema,
        response: { 200: answerSchema, 400: problemSchema },
      },
    },
    async ({ params: { shift }, body: { by, remark } }) =>
      signed(by, (key, signer) => countersignatureOf(store, key, shift, signer, remark)),
  );
};
