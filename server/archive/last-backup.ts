/** When a data folder was last backed up, and where to: a note beside the record, written by `backup`. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const FILE = 'last-backup.json';

export const lastBackupSchema = z.object({
  wall: z.iso.datetime(),
  file: z.string(),
  bytes: z.number(),
  entries: z.number(),
});
export type LastBackup = z.infer<typeof lastBackupSchema>;

/** Null when there was none, or its note cannot be read. */
export const readLastBackup = (folder: string): LastBackup | null => {
  try {
    return lastBackupSchema.parse(JSON.parse(readFileSync(join(folder, FILE), 'utf8')));
  } catch {
    return null;
  }
};

/** Throws what the system says when the folder cannot be written. */
export const noteLastBackup = (folder: string, backup: LastBackup): void => {
  writeFileSync(join(folder, `${FILE}.new`), `${JSON.stringify(backup)}\n`);
  renameSync(join(folder, `${FILE}.new`), join(folder, FILE));
};
