/** A process that archives the first shift of a record and pulls its own plug at a step. */
import { archiveShift } from '../../../server/archive/archive.ts';
import { writeExport } from '../../../server/archive/write-export.ts';
import { withRecord } from '../../../server/store/exclusive.ts';
import { storeOn } from '../../../server/store/sqlite.ts';

const [folder = '', out = '', at = ''] = process.argv.slice(2);
await withRecord(folder, async (db) => {
  const store = storeOn(folder, db);
  const [summary] = await store.shifts();
  if (summary === undefined) throw new Error('no shift');
  await archiveShift(db, store, summary, out, writeExport, (_shift, step) => {
    if (step === at) process.kill(process.pid, 'SIGKILL');
  });
});
