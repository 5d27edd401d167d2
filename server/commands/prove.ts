/** `prove`: a small file that shows some entries were sealed, without the rest of the shift. */
import { join } from 'node:path';
import { spanNamed } from '../export/export-shift.ts';
import { proveFrom } from '../export/prove.ts';
import { writeWhole } from '../export/write-file.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { spansOf } from '../seal/spans.ts';
import { withStore } from '../store/look.ts';
import type { Store } from '../store/store.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';

export const PROVE_HELP = `patchyard prove (--lot L | --batch N | --entry SEQ) --out FILE [options]

Writes the entries of one lot, of one batch, or a single entry of a sealed shift, each with its inclusion path to the
sealed root (RFC 6962). patchyard verify FILE checks it by itself; nothing else of the shift is shown.

  --lot L         everything recorded of that lot and its batches
  --batch N       everything recorded of batch N of the shift
  --entry SEQ     that entry
  --shift N       the shift by its number, or # and the entry that opens it; needed with --batch, found by
                  itself for a lot or an entry
  --out FILE      the file to write
  --replace       write over a file that is there
  --data FOLDER   data folder (.data)
  -h, --help      this text`;

/** The shift a lot or entry lies in, when none is named. */
const shiftFor = async (
  store: Store,
  lot: string | undefined,
  entry: number | undefined,
): Promise<string> => {
  if (lot !== undefined) {
    const [found] = await store.find({ lot, limit: 1 });
    if (found === undefined)
      throw new PlainError(`No shift of the record in ${store.where} knows a lot ${lot}.`);
    return `#${found.shift.shift}`;
  }
  const span = (await spansOf(store)).find(
    (one) => entry !== undefined && entry >= one.shift && entry <= one.covered,
  );
  if (span === undefined)
    throw new PlainError(`Entry ${entry} lies in no shift of the record in ${store.where}.`);
  return `#${span.shift}`;
};

export const proveCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    lot: { type: 'string' },
    batch: { type: 'string' },
    entry: { type: 'string' },
    shift: { type: 'string' },
    out: { type: 'string' },
    data: { type: 'string' },
    replace: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(PROVE_HELP);
    return 0;
  }
  const [lot, out] = [textOption(values, 'lot'), textOption(values, 'out')];
  const batch = numberOption(values, 'batch', 1, 1_000_000);
  const entry = numberOption(values, 'entry', 1, Number.MAX_SAFE_INTEGER);
  const asked = [lot, batch, entry].filter((one) => one !== undefined).length;
  if (files.length > 0 || asked !== 1 || out === undefined)
    throw new UsageError('prove needs one of --lot, --batch and --entry, and --out FILE.');
  const named = textOption(values, 'shift');
  if (batch !== undefined && named === undefined)
    throw new UsageError('--batch needs --shift N: every shift counts its batches from 1.');
  const data = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  return withStore(data, async (store) => {
    const span = await spanNamed(store, named ?? (await shiftFor(store, lot, entry)));
    const what = lot !== undefined ? { lot } : batch !== undefined ? { batch } : { entry: entry as number };
    const proof = await proveFrom(store, span, what);
    const bytes = await writeWhole(
      out,
      [Buffer.from(`${JSON.stringify(proof, null, 1)}\n`)],
      values.replace === true,
    );
    console.log(
      `${proof.about}: ${proof.entries.length} entries proven in ${out}, ${(bytes / 1e3).toFixed(0)} kB`,
    );
    return 0;
  });
};
