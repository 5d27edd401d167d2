/**
 * Makes the fixture of an export format that has none yet. One that is there is never touched: old exports must
 * keep opening. Run it: npx tsx tests/record/support/make-fixture.ts
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXPORT_FORMAT } from '../../../machines/record/export.types.ts';
import { exportBytes, recordShift, tempFolder } from './recorded-shift.ts';

const fixtures = fileURLToPath(new URL('../fixtures', import.meta.url));
const file = join(fixtures, `export-v${EXPORT_FORMAT}.zip`);
if (existsSync(file)) throw new Error(`${file} is there: a fixture is never made again`);
const folder = tempFolder();
try {
  await recordShift(folder.path, 4);
  mkdirSync(fixtures, { recursive: true });
  writeFileSync(file, await exportBytes(folder.path, '1'));
  console.log(file);
} finally {
  folder.remove();
}
