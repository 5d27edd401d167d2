/** `verify`: checks the chain of a record from its first entry to its last. */
import { join } from 'node:path';
import { PACKAGE_ROOT } from '../package-root.ts';
import { verifyFolder } from '../store/sqlite.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const VERIFY_HELP = `patchyard verify [--data FOLDER]

Checks every entry of the record in a data folder against its hash and the one before it.
A server may be running on the folder meanwhile.

  --data FOLDER   data folder (.data)
  -h, --help      this text`;

export const verifyCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, { data: { type: 'string' } });
  if (values.help === true) {
    console.log(VERIFY_HELP);
    return 0;
  }
  if (files.length > 0) throw new UsageError('verify takes no file; name a folder with --data.');
  const folder = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  const verdict = verifyFolder(folder);
  if (verdict.ok) {
    console.log(`The record in ${folder} is whole: ${verdict.entries} entries, head ${verdict.end.hash}`);
    return 0;
  }
  console.error(`The record in ${folder} is not whole at entry ${verdict.seq}: ${verdict.why}`);
  return 1;
};
