/** How the record is kept: its size, its shifts, the last backup, and the room that is left. */
import type { FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { lastBackupSchema, readLastBackup } from '../archive/last-backup.ts';
import { roomFor, roomState } from '../archive/room.ts';
import type { Store } from '../store/store.ts';

export const keepingSchema = z.object({
  folder: z.string(),
  bytes: z.number(),
  freeInsideBytes: z.number(),
  entries: z.number(),
  shifts: z.number(),
  sealed: z.number(),
  packed: z.number(),
  archived: z.number(),
  room: z.object({ freeBytes: z.number(), totalBytes: z.number() }).nullable(),
  roomState: z.enum(['enough', 'little', 'nearly none']),
  lastBackup: lastBackupSchema.nullable(),
  /** The server's own wall clock, to tell how old a backup is. */
  wall: z.string(),
});

export const registerKeeping = (app: FastifyInstance, store: Store): void => {
  app.withTypeProvider<ZodTypeProvider>().get(
    '/api/keeping',
    {
      schema: {
        summary: 'How the record is kept: size, shifts sealed and archived, last backup, room on the disk',
        response: { 200: keepingSchema },
      },
    },
    async () => {
      const { freeBytes, ...kept } = await store.keeping();
      const room = roomFor(store.where);
      return {
        folder: store.where,
        ...kept,
        freeInsideBytes: freeBytes,
        room,
        roomState: roomState(room),
        lastBackup: readLastBackup(store.where),
        wall: new Date().toISOString(),
      };
    },
  );
};
