/** Makes a data folder and the folders above it, one level at a time. */
import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';

const kindOf = (path: string): 'folder' | 'file' | 'missing' => {
  try {
    return statSync(path).isDirectory() ? 'folder' : 'file';
  } catch {
    // What cannot be looked at cannot be used either: making it says why.
    return 'missing';
  }
};

/** The folders to make, the topmost first. */
const missingOf = (folder: string): string[] => {
  const missing: string[] = [];
  for (let at = resolve(folder); ; at = dirname(at)) {
    const kind = kindOf(at);
    if (kind === 'file')
      throw new PlainError(
        at === resolve(folder)
          ? `${folder} is a file, not a data folder: name a folder with --data.`
          : `Data folder ${folder} cannot be made, ${at} is a file: name another one with --data.`,
      );
    if (kind === 'folder' || dirname(at) === at) return missing;
    missing.unshift(at);
  }
};

/**
 * Does nothing when the folder is there. Throws PlainError when it cannot be made. Node's own recursive mkdir
 * never returns where the system answers "no such file" to making a folder, as it does under /proc.
 */
export const makeFolder = (folder: string): void => {
  for (const path of missingOf(folder)) {
    try {
      mkdirSync(path);
    } catch (error) {
      if (codeOf(error) === 'EEXIST' && kindOf(path) === 'folder') continue;
      throw new PlainError(
        `Data folder ${folder} cannot be made (${codeOf(error) || messageOf(error)}): name another one with --data.`,
      );
    }
  }
};
