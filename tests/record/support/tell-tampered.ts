/**
 * Makes one tampered export of each kind and prints what `patchyard verify` says of it.
 * Run it: npx tsx tests/record/support/tell-tampered.ts
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { exitCode, inWords } from '../../../server/verify/verdict.ts';
import { verifyFile } from '../../../server/verify/verify-file.ts';
import { TAMPERED } from './tampered.ts';

const folder = mkdtempSync(join(tmpdir(), 'patchyard-tampered-'));
try {
  for (const { name, make, options } of TAMPERED) {
    const file = join(folder, 'shift.zip');
    writeFileSync(file, await make());
    const verdict = await verifyFile(file, options?.key === undefined ? {} : { key: options.key });
    const words = inWords(verdict).replaceAll(file, 'shift.zip').replaceAll('\n', '\n    ');
    console.log(`${name}\n    exit ${exitCode(verdict)}: ${words}`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
