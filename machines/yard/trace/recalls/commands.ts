/** What people may do about a recall, and who may do it. */
import { z } from 'zod';
import type { Role } from '../../../scenario/people.schema.ts';
import { TICKS } from './facts.ts';

const reason = z.string().trim().min(3, 'say why, in a few words').max(400);
const recall = z.string().regex(/^RC-\d{6}-\d+$/, 'name a recall, such as RC-260512-1');
const patch = z.string().trim().min(1).max(80);
const time = z.string().regex(/^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2})?)?$/);
const ids = z.array(z.string().min(1).max(80)).max(20_000);

export const traceFromSchema = z.union([
  z.strictObject({
    kind: z.enum(['delivery', 'batch', 'lot', 'load', 'patch']),
    id: z.string().trim().min(1).max(80),
  }),
  z.strictObject({
    kind: z.enum(['operator', 'scale']),
    id: z.string().trim().min(1).max(80),
    from: time.optional(),
    to: time.optional(),
  }),
]);

export const recallsCommandSchema = z.discriminatedUnion('do', [
  z.strictObject({
    do: z.literal('openRecall'),
    from: traceFromSchema,
    words: z.string().trim().min(1).max(300),
    reason,
  }),
  z.strictObject({
    do: z.literal('tickPatch'),
    recall,
    patch,
    what: z.enum(TICKS),
    note: z.string().trim().max(400).default(''),
  }),
  z.strictObject({ do: z.literal('takeBackTick'), recall, patch, n: z.int().min(1).max(10_000), reason }),
  z.strictObject({ do: z.literal('closeRecall'), recall, remark: reason }),
  z.strictObject({ do: z.literal('reopenRecall'), recall, reason }),
  /** Given by the server when a drill is over: it held the clock and knows the truth. */
  z.strictObject({
    do: z.literal('keepDrill'),
    from: traceFromSchema,
    words: z.string().max(300),
    seconds: z.number().min(0).max(86_400),
    truth: ids,
    ticked: ids,
  }),
]);
export type RecallsCommand = z.infer<typeof recallsCommandSchema>;

const OPENERS: readonly Role[] = ['supervisor', 'quality officer', 'storekeeper', 'trainer'];
const WORKERS: readonly Role[] = [...OPENERS, 'operator', 'trainee'];

export const RECALLS_PERMISSIONS: { readonly [K in RecallsCommand['do']]: readonly Role[] } = {
  openRecall: OPENERS,
  tickPatch: WORKERS,
  takeBackTick: WORKERS,
  closeRecall: OPENERS,
  reopenRecall: OPENERS,
  keepDrill: [...WORKERS, 'auditor'],
};

/** Only the program itself gives these. */
export const NOT_BY_PEOPLE: readonly string[] = ['keepDrill'];
