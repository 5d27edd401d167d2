/** `export`: one shift of a record as one file that needs nothing else to be read and verified. */
import { join } from 'node:path';
import { exportShift, spanNamed } from '../export/export-shift.ts';
import { writeWhole } from '../export/write-file.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { withStore } from '../store/look.ts';
import { readOptions, textOption, UsageError } from './options.ts';
import { createProgress } from './progress.ts';

export const EXPORT_HELP = `patchyard export --shift N --out FILE [options]

Writes one shift as a zip: its entries, seal and keys, the plant, mix and people files it ran with. Readable with
unzip and a text editor; patchyard verify FILE checks it anywhere. A server may be running on the folder meanwhile.

  --shift N       the shift by its number, 1 for the first of the record; or # and the entry that opens it
  --out FILE      the file to write; it must not be there yet, and appears only when it is whole
  --replace       write over a file that is there
  --data FOLDER   data folder (.data)
  -h, --help      this text`;

export const exportCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    shift: { type: 'string' },
    out: { type: 'string' },
    data: { type: 'string' },
    replace: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(EXPORT_HELP);
    return 0;
  }
  const [shift, out] = [textOption(values, 'shift'), textOption(values, 'out')];
  if (files.length > 0 || shift === undefined || out === undefined)
    throw new UsageError('export needs --shift N and --out FILE.');
  const data = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  return withStore(data, async (store) => {
    const span = await spanNamed(store, shift);
    const progress = createProgress(process.stderr, 'exported');
    try {
      const bytes = await writeWhole(out, exportShift(store, span, progress.show), values.replace === true);
      progress.clear();
      const sealed = span.sealEntry === null ? 'NOT SEALED YET' : `sealed by entry ${span.seal}`;
      console.log(
        `Shift ${span.ordinal} (${span.scenario}, ${span.day}), entries ${span.shift} to ${span.covered}, ${sealed}: ${out}, ${(bytes / 1e6).toFixed(2)} MB`,
      );
      return 0;
    } finally {
      progress.clear();
    }
  });
};
