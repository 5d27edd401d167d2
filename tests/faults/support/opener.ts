/** A process that opens a record for writing and says in one line what came of it. */
import { openSqliteStore } from '../../../server/store/sqlite.ts';

try {
  const store = openSqliteStore(process.argv[2] ?? '');
  console.log('opened');
  await store.close();
} catch (error) {
  const { name, message } = error as Error;
  console.error(`${name}: ${message}`);
  process.exitCode = 1;
}
