/** A process that packs the readings of sealed shifts and says on stdout after each chunk. To be killed. */
import { writeSync } from 'node:fs';
import { openSqliteStore } from '../../../server/store/sqlite.ts';

const store = openSqliteStore(process.argv[2] ?? '');
writeSync(1, 'open\n');
while (await store.packNext()) writeSync(1, 'packed\n');
writeSync(1, 'done\n');
await store.close();
