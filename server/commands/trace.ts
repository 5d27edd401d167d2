/** `trace`: where binder, stone or mix went, or what a patch is made of, from the record of a data folder. */
import { join } from 'node:path';
import { traceCsv } from '../../machines/ledger/trace-csv.ts';
import type { Traced, TraceFrom } from '../../machines/yard/trace/traced.types.ts';
import { trace } from '../ledger/trace.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { withStore } from '../store/look.ts';
import { readOptions, textOption, UsageError, type Values } from './options.ts';

export const TRACE_HELP = `patchyard trace [--data FOLDER] --delivery ID [--json | --csv]

Every patch that may hold what is asked for, with tonnes, and where the rest of it is; or what a patch is made of.
A server may run on the folder meanwhile.

  --data FOLDER    data folder (.data)
  --delivery ID    a delivery by its id (D-260512-1) or the number of its ticket
  --batch ID       a batch: its lot and number (260512-1/4)
  --lot ID         a lot (260512-1)
  --load ID        a load (L-260512-1)
  --operator ID    all batches a person started
  --scale NAME     all batches weighed with a scale: hopper or bucket; with the entry at which it was set to
                   zero ("hopper 1234"), those from then to the next time
  --patch ID       a patch (PL-260512-1/7): back to batches and deliveries
  --from TIME      for an operator or a scale: only from this time on (2026-05-12 or 2026-05-12T08:30)
  --to TIME        and up to this one
  --json           everything, as JSON
  --csv            patches and the rest as a table
  -h, --help       this text`;

const KINDS = ['delivery', 'batch', 'lot', 'load', 'operator', 'scale', 'patch'] as const;
const TIME = /^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2})?)?$/;

const timeOption = (values: Values, name: string): string | undefined => {
  const text = textOption(values, name);
  if (text !== undefined && !TIME.test(text))
    throw new UsageError(`--${name} ${text} is no time: write it as 2026-05-12 or 2026-05-12T08:30.`);
  return text;
};

const fromOptions = (values: Values): TraceFrom => {
  const given = KINDS.filter((kind) => values[kind] !== undefined);
  const [kind] = given;
  if (kind === undefined || given.length > 1)
    throw new UsageError(`trace needs one of ${KINDS.map((one) => `--${one}`).join(', ')}.`);
  const id = textOption(values, kind) as string;
  const [from, to] = [timeOption(values, 'from'), timeOption(values, 'to')];
  if (kind !== 'operator' && kind !== 'scale') {
    if (from !== undefined || to !== undefined)
      throw new UsageError('--from and --to go with --operator and --scale.');
    return { kind, id };
  }
  return { kind, id, ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
};

const tonnes = (grams: number): string => `${(grams / 1e6).toFixed(3)} t`;
const kilograms = (grams: number): string => `${(grams / 1000).toFixed(3)} kg`;

const linesOf = (traced: Traced): readonly string[] => {
  const { direction, words, grams, patches, affectedPatchGrams, left, batches, madeOf } = traced;
  if (direction === 'backward')
    return [
      `${words}: ${kilograms(grams)} of mix`,
      ...madeOf.map(
        ({ kind, id, grams: part }) => `  ${kilograms(part).padStart(14)}  ${kind ?? 'not on record'} ${id}`,
      ),
      ...batches.map(
        ({ batch, shareGrams, by, at }) =>
          `  ${kilograms(shareGrams).padStart(14)}  batch ${batch} by ${by}, ${at.replace('T', ' ')}`,
      ),
    ];
  return [
    `${words}: ${tonnes(grams)} went on, into ${batches.length} batches`,
    `${patches.length} patches with ${tonnes(affectedPatchGrams)} of mix are affected`,
    ...patches.map(
      ({ patch, place, laidAt, affectedGrams, shareGrams }) =>
        `  ${patch.padEnd(16)} ${tonnes(affectedGrams)}, ${kilograms(shareGrams)} of it by share  ${laidAt.replace('T', ' ')}  ${place}`,
    ),
    ...left.map(
      ({ kind, id, affectedGrams, shareGrams }) =>
        `  still in ${kind} ${id}: ${tonnes(affectedGrams)}, ${kilograms(shareGrams)} of it by share`,
    ),
  ];
};

export const traceCommand = async (args: readonly string[]): Promise<number> => {
  const text = { type: 'string' } as const;
  const { values, files } = readOptions(args, {
    data: text,
    ...Object.fromEntries(KINDS.map((kind) => [kind, text])),
    from: text,
    to: text,
    json: { type: 'boolean' },
    csv: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(TRACE_HELP);
    return 0;
  }
  if (files.length > 0) throw new UsageError('trace takes no file; name a folder with --data.');
  if (values.json === true && values.csv === true) throw new UsageError('Choose one of --json and --csv.');
  const from = fromOptions(values);
  const folder = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  const traced = await withStore(folder, (store) => trace(store, from));
  if (values.json === true) console.log(JSON.stringify(traced, null, 2));
  else if (values.csv === true) process.stdout.write(traceCsv(traced));
  else console.log(linesOf(traced).join('\n'));
  return 0;
};
