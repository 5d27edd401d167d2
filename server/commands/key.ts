/** `key`: shows the key that seals in a data folder, or changes it for a new one. */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { sealEntry } from '../../machines/record/chain.ts';
import { fingerprintInGroups, pemOf, rotateKey } from '../../machines/record/seal.ts';
import { sha256 } from '../digest.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import { installNextKey, keyInfoOf, makeKeyFile, NEXT_KEY_FILE, openKey } from '../seal/key-file.ts';
import { expectedKey } from '../seal/seals-of.ts';
import { openSqliteStore } from '../store/sqlite.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const KEY_HELP = `patchyard key [--rotate --reason TEXT] [options]

Shows the public key that seals shifts in a data folder, and its fingerprint: give that to whoever is to check
your records, by another way than the records themselves.

  --rotate        make a new key and put the change on record: the old key signs the new one. No server may run
                  on the folder meanwhile. Seals made before stay good.
  --reason TEXT   why the key is changed
  --json          print one JSON object on stdout
  --data FOLDER   data folder (.data)
  -h, --help      this text

The private key lies in plant-key.pem in the data folder, readable by its owner alone. Whoever has it can seal
records in the plant's name; back it up where you keep other keys, not beside the exports.`;

/** Changes the key; every step can break off without leaving a key that the record does not know. */
const rotate = async (data: string, reason: string): Promise<void> => {
  const store = openSqliteStore(data);
  try {
    const from = openKey(data, await expectedKey(store));
    const to = makeKeyFile(join(data, NEXT_KEY_FILE));
    try {
      const tail = await store.tail();
      if (tail.seq === 0)
        throw new PlainError(`There is no record in ${data} yet: the first start makes a key by itself.`);
      const wall = new Date().toISOString();
      const content = { kind: 'keyRotated', body: rotateKey(from, to, reason) } as const;
      await store.append([sealEntry(tail, content, tail.atMs, wall, sha256)]);
    } catch (error) {
      rmSync(join(data, NEXT_KEY_FILE), { force: true });
      throw error;
    }
    installNextKey(data);
  } finally {
    await store.close();
  }
};

export const keyCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    rotate: { type: 'boolean' },
    reason: { type: 'string' },
    json: { type: 'boolean' },
    data: { type: 'string' },
  });
  if (values.help === true) {
    console.log(KEY_HELP);
    return 0;
  }
  if (files.length > 0) throw new UsageError('key takes no file; name a folder with --data.');
  const data = textOption(values, 'data') ?? join(PACKAGE_ROOT, '.data');
  const reason = textOption(values, 'reason');
  if (values.rotate === true && reason === undefined)
    throw new UsageError('--rotate needs --reason TEXT: it is put on record.');
  if (values.rotate !== true && reason !== undefined) throw new UsageError('--reason goes with --rotate.');
  if (!existsSync(data)) throw new PlainError(`There is no data folder ${data}.`);
  if (reason !== undefined) await rotate(data, reason);
  const info = keyInfoOf(data);
  if (info === null)
    throw new PlainError(`No key has been made in ${data} yet: the first start of serve or run makes one.`);
  if (values.json === true) {
    console.log(JSON.stringify({ ...info, pem: pemOf(info.publicKey) }));
    return 0;
  }
  if (reason !== undefined) console.log('The key was changed, and the change is on record.');
  console.log(`Fingerprint ${fingerprintInGroups(info.fingerprint)}`);
  console.log(pemOf(info.publicKey).trimEnd());
  return 0;
};
