/** `backup`: a verified copy of the record in one file, also while a server runs on the folder. */
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { backUp } from '../archive/backup.ts';
import { noteLastBackup } from '../archive/last-backup.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { messageOf } from '../plain-error.ts';
import { RECORD_FILE } from '../store/database.ts';
import { readOptions, textOption, UsageError } from './options.ts';
import { createProgress } from './progress.ts';

export const BACKUP_HELP = `patchyard backup --out FILE [--data FOLDER]

Copies the record in a data folder to one file and verifies the copy, entry by entry. A server may run on
the folder meanwhile: the copy is the record as it was at one moment. It never writes over another file.

The plant's private key is never in the copy: who holds it can seal in the plant's name. Keep a copy of it
apart, under lock. Public keys stand in the record itself, so old seals can be checked without it.
Archive files (patchyard archive) are not in it either: keep them as carefully as the backup. Nor are the
folders beside the record: attachments with the photographs its entries name, and training with drills worked and
their certificates. Copy them as well.

  --out FILE      the file to write
  --data FOLDER   data folder (.data)
  -h, --help      this text`;

/** Files that hold nothing of worth beside the record. */
const OWN_FILES = [/^record\.sqlite/, /^lock\.sqlite/, /^reached\.json/, /^last-backup\.json/];

/** What else lies in the data folder, in words: nothing is left out silently. */
const leftOut = (folder: string): string[] => {
  const others = readdirSync(folder)
    .filter((name) => !OWN_FILES.some((own) => own.test(name)))
    .sort();
  const keys = others.filter((name) => /\.pem$|key/i.test(name));
  return [
    keys.length === 0
      ? `No private key lies in ${folder}.`
      : `Left out on purpose: ${keys.join(', ')}. Who holds the private key can seal in the plant's name; keep a copy apart, under lock.`,
    ...(others.length > keys.length
      ? [
          `Not copied: ${others
            .filter((name) => !keys.includes(name))
            .map((name) =>
              name === 'training'
                ? 'training (drills and their certificates: copy that folder yourself)'
                : name === 'attachments'
                  ? 'attachments (photographs that entries name: copy that folder yourself)'
                  : name,
            )
            .join(', ')}.`,
        ]
      : []),
  ];
};

const restoring = (file: string): string => `To restore: stop the server, make an empty folder NEW, and
  cp ${file} NEW/${RECORD_FILE}
  patchyard verify --data NEW
  patchyard serve --data NEW
Put the private key back beside it (plant-key.pem, mode 600). If it is lost for good, make another before serve:
  patchyard key --new --reason TEXT --data NEW    (puts the loss on record)`;

export const backupCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, { out: { type: 'string' }, data: { type: 'string' } });
  if (values.help === true) {
    console.log(BACKUP_HELP);
    return 0;
  }
  const out = textOption(values, 'out');
  if (files.length > 0 || out === undefined)
    throw new UsageError('backup needs --out FILE and nothing else.');
  const folder = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  const progress = createProgress(process.stderr, 'copied  ');
  const verified = createProgress(process.stderr, 'verified');
  try {
    const { bytes, entries, head } = await backUp(folder, out, progress.show, undefined, verified.show);
    verified.clear();
    console.log(`${out}: ${entries} entries, ${(bytes / 1e6).toFixed(1)} MB, verified, head ${head}`);
    for (const line of leftOut(folder)) console.log(line);
    console.log(restoring(out));
    const wall = new Date().toISOString();
    try {
      noteLastBackup(folder, { wall, file: resolve(out), bytes, entries });
    } catch (error) {
      console.error(`The backup is good, but ${folder} could not be told of it: ${messageOf(error)}`);
    }
    return 0;
  } finally {
    progress.clear();
    verified.clear();
  }
};
