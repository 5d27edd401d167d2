// A digest of source folders, to know whether what was built from them is still true.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Every file under a folder, sorted, so that the digest does not depend on the disk's order. */
function filesUnder(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return filesUnder(path);
      return entry.isFile() ? [path] : [];
    });
}

/** SHA-256 over names and contents of all files in `folders` and of `files`, hex. */
export function digestOf(folders, files = []) {
  const hash = createHash('sha256');
  for (const path of [...folders.flatMap(filesUnder), ...files]) {
    const bytes = readFileSync(path);
    hash.update(`${path}\0${bytes.length}\0`).update(bytes);
  }
  return hash.digest('hex');
}
