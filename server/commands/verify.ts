/** `verify`: checks an export, a proof or a whole data folder, and says what is wrong and where. */
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readFingerprint } from '../../machines/record/seal.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { EXIT, exitCode, inWords, type Verdict } from '../verify/verdict.ts';
import { verifyFile } from '../verify/verify-file.ts';
import { verifyRecord } from '../verify/verify-record.ts';
import { readOptions, textOption, UsageError } from './options.ts';
import { createProgress } from './progress.ts';

export const VERIFY_HELP = `patchyard verify [FILE | FOLDER] [options]

Checks an export of a shift, a proof, or the whole record in a data folder: every entry against its hash and the
one before it, all of them against the sealed root, the seal against its key, and every file that belongs to it.
Nothing but the file is needed, and no network. A server may be running on the folder meanwhile.

  --data FOLDER      data folder, when no file or folder is named (.data)
  --key FINGERPRINT  the key it must be sealed with: 64 hex digits, spaces allowed, from a printed report
  --redecide         feed the recorded readings and commands through the line again and compare every fact
                     (an export, by the program version that recorded it)
  --json             print one JSON object on stdout
  -h, --help         this text

Exit code 0 intact, 1 altered (or decided otherwise), 2 unreadable or called wrongly, 3 nothing is wrong but no
seal vouches for it (a shift that still ran), 4 intact but another program version would have to decide it again.`;

const judge = async (path: string, key: string | undefined, redecide: boolean): Promise<Verdict> => {
  const isFolder = existsSync(path) && statSync(path).isDirectory();
  try {
    if (isFolder || !existsSync(path)) {
      if (redecide) throw new UsageError('--redecide takes an export: make one with patchyard export.');
      if (!isFolder && /\.\w+$/.test(path)) throw new PlainError(`There is no file ${path}.`);
      return await verifyRecord(path, key);
    }
    const progress = createProgress(process.stderr, 'verified');
    try {
      return await verifyFile(path, {
        ...(key === undefined ? {} : { key }),
        redecide,
        onShare: progress.show,
      });
    } finally {
      progress.clear();
    }
  } catch (error) {
    if (!(error instanceof PlainError)) throw error;
    return {
      result: 'unreadable',
      of: isFolder ? 'record' : 'export',
      file: path,
      why: error.message,
      findings: [],
    };
  }
};

export const verifyCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    data: { type: 'string' },
    key: { type: 'string' },
    redecide: { type: 'boolean' },
    json: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(VERIFY_HELP);
    return 0;
  }
  const data = textOption(values, 'data');
  if (files.length > 1 || (files.length === 1 && data !== undefined))
    throw new UsageError('verify takes one file or folder.');
  const typed = textOption(values, 'key');
  const key = typed === undefined ? undefined : readFingerprint(typed);
  if (key === null) throw new UsageError(`--key ${typed} is not a fingerprint of 64 hex digits.`);
  const path = files[0] ?? data ?? join(PACKAGE_ROOT, '.data');
  const verdict = await judge(path, key, values.redecide === true);
  const code = exitCode(verdict);
  if (values.json === true) console.log(JSON.stringify({ ...verdict, exitCode: code }));
  else if (code === EXIT.intact || code >= EXIT['not sealed']) console.log(inWords(verdict));
  else console.error(inWords(verdict));
  return code;
};
