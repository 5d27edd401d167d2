/** A process that appends to a record without end and says on stdout what has been acknowledged. To be killed. */
import { writeSync } from 'node:fs';
import { openSqliteStore } from '../../../server/store/sqlite.ts';
import { OPENING, readingsAt, sealAll } from '../../record/samples.ts';

const folder = process.argv[2] ?? '';
const store = openSqliteStore(folder);
let { seq, hash } = await store.tail();
if (store.cut !== null) writeSync(1, `cut ${store.cut}\n`);
for (let round = 0; ; round++) {
  const count = 1 + (round % 7);
  const contents = Array.from({ length: count }, (_, i) =>
    seq === 0 && i === 0 ? OPENING : readingsAt(seq + i),
  );
  const batch = sealAll(contents, { seq, hash });
  await store.append(batch);
  const last = batch.at(-1)?.entry;
  if (last === undefined) throw new Error('an empty batch');
  ({ seq, hash } = last);
  writeSync(1, `${seq} ${hash}\n`);
}
