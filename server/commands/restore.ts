/** `restore`: brings an archived shift back into the record it came from. */
import { join } from 'node:path';
import { restoreShift } from '../archive/archive.ts';
import { packAll } from '../archive/packing.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { withRecord } from '../store/exclusive.ts';
import { storeOn } from '../store/sqlite.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const RESTORE_HELP = `patchyard restore FILE [--data FOLDER]

Brings a shift that was archived back into the record it came from. The file is verified first, and every entry
must follow the one before it, from the opening to the end the record remembers. No server may run on the
folder meanwhile. The file stays where it is.

  --data FOLDER   data folder (.data)
  -h, --help      this text`;

export const restoreCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, { data: { type: 'string' } });
  if (values.help === true) {
    console.log(RESTORE_HELP);
    return 0;
  }
  const [file] = files;
  if (file === undefined || files.length > 1) throw new UsageError('restore needs one archive file.');
  const data = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  return withRecord(data, async (db) => {
    const { shift, last } = await restoreShift(db, file);
    await packAll(storeOn(data, db));
    console.log(`${file}: entries ${shift + 1} to ${last} are back in the record in ${data}.`);
    return 0;
  });
};
