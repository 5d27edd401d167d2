/**
 * The log of one training session: an append-only file of JSON lines, enough to turn the drill again to any
 * moment. Commands and interventions are on the disk before they are answered; how far the drill got is
 * written once a second and may lag behind by that much after a kill.
 */
import { closeSync, fdatasyncSync, ftruncateSync, openSync, readFileSync, writeSync } from 'node:fs';
import { z } from 'zod';
import type { Intervention } from '../../machines/drills/run.types.ts';
import { envelopeSchema } from '../../machines/line/commands.ts';
import { ROLES } from '../../machines/scenario/people.schema.ts';
import { messageOf, PlainError } from '../plain-error.ts';

const tick = z.int().min(0);
const role = z.enum(ROLES);
const person = z.strictObject({ id: z.string(), name: z.string(), role });

const heardCommand = z.strictObject({
  id: envelopeSchema.shape.id,
  by: z.strictObject({ person: z.string(), role, console: z.string() }),
  command: envelopeSchema.shape.command,
});

/** What people did beside the commands of the line. Its own shape is checked where it is asked for. */
const act = z.custom<Intervention>(
  (value) => typeof value === 'object' && value !== null && 'do' in value && typeof value.do === 'string',
  'is no act of a trainer or trainee',
);

const lineSchema = z.discriminatedUnion('is', [
  z.strictObject({
    is: z.literal('opened'),
    format: z.literal(1),
    program: z.string(),
    /** What the plant and the drill were when it was begun; logs older than these fields have none. */
    physics: z.int().optional(),
    drillDigest: z.string().optional(),
    session: z.string(),
    drill: z.string(),
    seed: z.int().min(0),
    hints: z.boolean(),
    trainee: person,
    by: person,
    wall: z.string(),
    from: z.strictObject({ session: z.string(), tick }).nullable(),
  }),
  /** What was put into the tick of that number. */
  z.strictObject({
    is: z.literal('heard'),
    tick,
    commands: z.array(heardCommand),
    acts: z.array(act),
  }),
  z.strictObject({ is: z.literal('at'), tick }),
  z.strictObject({ is: z.literal('kept'), tick, name: z.string() }),
  z.strictObject({ is: z.literal('returned'), fromTick: tick, tick, by: z.string(), wall: z.string() }),
  z.strictObject({ is: z.literal('ended'), tick, by: z.string(), wall: z.string() }),
]);
export type LogLine = z.infer<typeof lineSchema>;
export type Opened = Extract<LogLine, { is: 'opened' }>;
export type Heard = Extract<LogLine, { is: 'heard' }>;

/** A session as its log tells it: what has been undone by a return is left out. */
export type LogStory = {
  readonly opened: Opened;
  readonly heard: readonly Heard[];
  readonly kept: readonly { readonly tick: number; readonly name: string }[];
  /** How far it had got. */
  readonly tick: number;
  readonly returns: number;
  readonly ended: { readonly by: string; readonly wall: string } | null;
};

/** Pure fold of the lines in order. Throws a PlainError when they do not begin with an opening. */
export const storyOf = (lines: readonly LogLine[]): LogStory => {
  const [opened] = lines;
  if (opened?.is !== 'opened') throw new PlainError('its first line does not say what was opened');
  let heard: Heard[] = [];
  let kept: { tick: number; name: string }[] = [];
  let at = 0;
  let returns = 0;
  let ended: LogStory['ended'] = null;
  for (const line of lines.slice(1)) {
    if (line.is === 'heard') {
      heard.push(line);
      at = Math.max(at, line.tick + 1);
    } else if (line.is === 'at') at = line.tick;
    else if (line.is === 'kept') kept.push({ tick: line.tick, name: line.name });
    else if (line.is === 'returned') {
      heard = heard.filter((one) => one.tick < line.tick);
      kept = kept.filter((one) => one.tick <= line.tick);
      at = line.tick;
      returns += 1;
    } else if (line.is === 'ended') {
      at = line.tick;
      ended = { by: line.by, wall: line.wall };
    }
  }
  return { opened, heard, kept, tick: at, returns, ended };
};

/**
 * Lines of a log file and the length of its sound part, bytes. A last line without its end (a kill while it was
 * written) was never acknowledged and is left out. Throws PlainError with the line that cannot be read.
 */
export const readLog = (file: string): { lines: LogLine[]; soundBytes: number } => {
  const text = readFileSync(file, 'utf8');
  const end = text.lastIndexOf('\n') + 1;
  const sound = text.slice(0, end);
  const lines = sound
    .split('\n')
    .slice(0, -1)
    .map((line, i) => {
      try {
        return lineSchema.parse(JSON.parse(line));
      } catch (error) {
        throw new PlainError(`line ${i + 1} cannot be read: ${messageOf(error).slice(0, 200)}`);
      }
    });
  return { lines, soundBytes: Buffer.byteLength(sound) };
};

export type SessionLog = {
  /** Writes lines at once; with `durable` they are on the disk when this returns. Throws when the disk cannot. */
  readonly write: (lines: readonly LogLine[], durable: boolean) => void;
  readonly close: () => void;
};

/** Opens a log to go on with it; whatever lies behind its sound part is cut off. */
export const openLog = (file: string, soundBytes = 0): SessionLog => {
  const fd = openSync(file, soundBytes === 0 ? 'wx' : 'r+');
  if (soundBytes > 0) ftruncateSync(fd, soundBytes);
  let at = soundBytes;
  let open = true;
  return {
    write: (lines, durable) => {
      if (!open) throw new Error('it is closed');
      const bytes = Buffer.from(lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
      let written = 0;
      try {
        while (written < bytes.length)
          written += writeSync(fd, bytes, written, bytes.length - written, at + written);
        if (durable) fdatasyncSync(fd);
      } catch (error) {
        // Half a line must not stand in front of the next one.
        ftruncateSync(fd, at);
        throw error;
      }
      at += bytes.length;
    },
    close: () => {
      if (open) closeSync(fd);
      open = false;
    },
  };
};
