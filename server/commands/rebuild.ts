/** `rebuild`: makes every projection again from the record and says where it differs from what was there. */
import { join } from 'node:path';
import { archivedEntriesAtHand } from '../archive/archived-entries.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { withRecord } from '../store/exclusive.ts';
import { rebuild } from '../store/rebuild.ts';
import { rebuildBooks } from '../store/rebuild-books.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const REBUILD_HELP = `patchyard rebuild [--data FOLDER] [--check]

Makes the index of lots, batches, people, materials and days, the answers to commands and the columns beside
each entry again from the entries, and the books of lab and yard with the tables mass is traced in; compares
them with what was there, and puts the new ones in their place.
No server may run on the folder meanwhile.

  --data FOLDER   data folder (.data)
  --check         only compare; exit code 1 when something differs
  -h, --help      this text

Shifts in archive files are read there; where a file is not at hand, what the index says of its shift is
taken over as it is, and said.`;

export const rebuildCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, { data: { type: 'string' }, check: { type: 'boolean' } });
  if (values.help === true) {
    console.log(REBUILD_HELP);
    return 0;
  }
  if (files.length > 0) throw new UsageError('rebuild takes no file; name a folder with --data.');
  const folder = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  const check = values.check === true;
  return withRecord(folder, async (db) => {
    const startedMs = performance.now();
    const { entriesOf, missing } = await archivedEntriesAtHand(db);
    const index = await rebuild(db, !check, entriesOf);
    const books = await rebuildBooks(db, !check, entriesOf);
    const found = {
      ...index,
      differences: index.differences + books.differences,
      told: [...index.told, ...books.told],
    };
    const seconds = ((performance.now() - startedMs) / 1000).toFixed(1);
    console.log(
      `${folder}: ${found.shifts} shifts, ${found.mentions} mentions and ${found.answers} answers made again from ${found.entries} entries in ${seconds} s`,
    );
    console.log(
      `The books of lab and yard were heard again up to entry ${books.seq}: ${books.edges} movements traced.`,
    );
    for (const shift of books.unheard)
      console.error(
        `The books know nothing of the shift that entry ${shift} opens: its archive file is not at hand.`,
      );
    for (const file of missing)
      console.error(`${file} is not at hand: what the index says of its shift was taken as it is.`);
    if (found.differences === 0) {
      console.log('They are the same as what was there.');
      return 0;
    }
    const differences = found.differences === 1 ? '1 difference' : `${found.differences} differences`;
    for (const line of found.told) console.error(line);
    if (found.differences > found.told.length)
      console.error(`… and ${found.differences - found.told.length} more`);
    console.error(
      check
        ? `${differences}; run it again without --check to put them right.`
        : `${differences}, put right.`,
    );
    return check ? 1 : 0;
  });
};
