/** Notices when the record's files are deleted or replaced while they are open: SQLite would write on into nothing. */
import { statSync } from 'node:fs';

const inodeOf = (file: string): number | null => {
  try {
    return statSync(file).ino;
  } catch {
    return null;
  }
};

export type Watch = { readonly check: () => void };

/** `check` throws when one of the files that were there is gone or is another one now. */
export const watchFiles = (files: readonly string[]): Watch => {
  const known = new Map<string, number>();
  return {
    check: () => {
      for (const file of files) {
        const inode = inodeOf(file);
        const was = known.get(file);
        if (was === undefined) {
          if (inode !== null) known.set(file, inode);
        } else if (inode !== was)
          throw new Error(
            `${file} was ${inode === null ? 'deleted' : 'replaced'} while the line ran; stop the server, see to the data folder and start again`,
          );
      }
    },
  };
};
