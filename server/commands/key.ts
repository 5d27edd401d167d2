/** `key`: shows the key that seals in a data folder, or changes it for a new one. */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { sealEntry } from '../../machines/record/chain.ts';
import { fingerprintInGroups, pemOf, rotateKey } from '../../machines/record/seal.ts';
import { sha256 } from '../digest.ts';
import { PACKAGE_ROOT } from '../package-root.ts';
import { PlainError } from '../plain-error.ts';
import {
  installNextKey,
  KEY_FILE,
  keyInfoOf,
  makeKeyFile,
  NEXT_KEY_FILE,
  openKey,
  readKeyFile,
} from '../seal/key-file.ts';
import { expectedKey } from '../seal/seals-of.ts';
import { openSqliteStore } from '../store/sqlite.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const KEY_HELP = `patchyard key [--rotate | --new] [--reason TEXT] [options]

Shows the public key that seals shifts in a data folder, and its fingerprint: give that to whoever is to check
your records, by another way than the records themselves.

  --rotate        make a new key and put the change on record: the old key signs the new one. No server may run
                  on the folder meanwhile. Seals made before stay good.
  --new           make a new key because the old one is lost for good, and put that on record. The old key cannot
                  sign it: seals made before stay good with the old fingerprint, seals made from now on have the
                  new one, and nothing but this note and the next seal's remark leads from one to the other
  --reason TEXT   why the key is changed, or how it was lost
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

/** Another key in the place of one that is lost. The note is on record before the key gets its place. */
const replaceLost = async (data: string, reason: string): Promise<void> => {
  const store = openSqliteStore(data);
  try {
    const lost = await expectedKey(store);
    const path = join(data, KEY_FILE);
    if (lost === null)
      throw new PlainError(
        `No key has sealed in ${data} yet, so none is lost: the next start makes one by itself.`,
      );
    if (existsSync(path))
      throw new PlainError(
        `There is a key ${path}: change it with --rotate, which it can sign itself. If it is not the one the record names, move it elsewhere first.`,
      );
    const next = join(data, NEXT_KEY_FILE);
    if (existsSync(next) && readKeyFile(next).fingerprint === lost) {
      installNextKey(data);
      throw new PlainError(
        'The key is not lost: its last change had broken off half way, and it is in its place now.',
      );
    }
    rmSync(next, { force: true });
    const to = makeKeyFile(join(data, NEXT_KEY_FILE));
    try {
      const tail = await store.tail();
      const { fingerprint: key, publicKey } = to;
      const detail = `the key before, ${lost}, was lost (${reason}); from here on key ${key} seals, which the lost one could not sign`;
      const body = { what: 'key lost', detail, newKey: { lost, key, publicKey } };
      const wall = new Date().toISOString();
      await store.append([sealEntry(tail, { kind: 'note', body }, tail.atMs, wall, sha256)]);
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
    new: { type: 'boolean' },
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
  const [isRotated, isNew] = [values.rotate === true, values.new === true];
  if (isRotated && isNew) throw new UsageError('--rotate and --new do not go together.');
  if ((isRotated || isNew) && reason === undefined)
    throw new UsageError(`--${isNew ? 'new' : 'rotate'} needs --reason TEXT: it is put on record.`);
  if (!isRotated && !isNew && reason !== undefined)
    throw new UsageError('--reason goes with --rotate or --new.');
  if (!existsSync(data)) throw new PlainError(`There is no data folder ${data}.`);
  if (reason !== undefined) await (isNew ? replaceLost : rotate)(data, reason);
  const info = keyInfoOf(data);
  if (info === null)
    throw new PlainError(
      `There is no key in ${data}: the first start of serve or run makes one. If there was one and it is lost, bring it back, or make another with --new --reason TEXT.`,
    );
  if (values.json === true) {
    console.log(JSON.stringify({ ...info, pem: pemOf(info.publicKey) }));
    return 0;
  }
  if (isRotated) console.log('The key was changed, and the change is on record.');
  if (isNew)
    console.log(
      'A new key was made, and the loss of the old one is on record. Give the new fingerprint to whoever checks your records.',
    );
  console.log(`Fingerprint ${fingerprintInGroups(info.fingerprint)}`);
  console.log(pemOf(info.publicKey).trimEnd());
  return 0;
};
