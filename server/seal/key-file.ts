/**
 * The plant's key: an Ed25519 key pair made at the first start and kept in the data folder, readable by its owner
 * alone. Whoever has this file can seal in the plant's name.
 */
import { createHash, createPrivateKey, createPublicKey, generateKeyPairSync, sign } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';

export const KEY_FILE = 'plant-key.pem';
/** The key to come, while a change of key is under way. */
export const NEXT_KEY_FILE = 'plant-key.next.pem';
const MODE = 0o600;
const OTHERS = 0o077;

const keyOf = (pem: string): PlantKey => {
  const privateKey = createPrivateKey(pem);
  if (privateKey.asymmetricKeyType !== 'ed25519') throw new Error('it is not an Ed25519 key');
  const spki = createPublicKey(privateKey).export({ format: 'der', type: 'spki' });
  return {
    fingerprint: createHash('sha256').update(spki).digest('hex'),
    publicKey: spki.toString('base64'),
    sign: (text) => sign(null, Buffer.from(text), privateKey).toString('base64'),
  };
};

/** Reads a key file. Throws PlainError when it is unreadable, open to others, or no such key. */
export const readKeyFile = (path: string): PlantKey => {
  let pem: string;
  try {
    const mode = statSync(path).mode;
    if (process.platform !== 'win32' && (mode & OTHERS) !== 0)
      throw new PlainError(
        `${path} may be read by others (mode ${(mode & 0o777).toString(8)}): run chmod 600 ${path}; if somebody may have read it, change the key after that with patchyard key --rotate.`,
      );
    pem = readFileSync(path, 'utf8');
  } catch (error) {
    if (error instanceof PlainError) throw error;
    throw new PlainError(
      `The plant's key ${path} cannot be read (${codeOf(error) || messageOf(error)}): make it readable for the user this program runs as.`,
    );
  }
  try {
    return keyOf(pem);
  } catch (error) {
    throw new PlainError(
      `${path} is not the key it should be (${messageOf(error)}): bring back the file from a backup of this data folder.`,
    );
  }
};

/** Makes a new key in a file that must not exist yet, and puts it on the disk before it is used. */
export const makeKeyFile = (path: string): PlantKey => {
  const { privateKey } = generateKeyPairSync('ed25519');
  const pem = privateKey.export({ format: 'pem', type: 'pkcs8' }) as string;
  try {
    const file = openSync(path, 'wx', MODE);
    try {
      writeFileSync(file, pem);
      fsyncSync(file);
    } catch (error) {
      // Half a key would stand in the way when the disk has room again.
      rmSync(path, { force: true });
      throw error;
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw new PlainError(
      `The plant's key ${path} cannot be written (${codeOf(error) || messageOf(error)}): the data folder must be writable.`,
    );
  }
  return keyOf(pem);
};

/** The key of a data folder and what it is called on paper. */
export type KeyInfo = { readonly fingerprint: string; readonly publicKey: string };

/** For reports: the key that seals in this data folder now, or null when none has been made yet. */
export const keyInfoOf = (folder: string): KeyInfo | null => {
  const path = join(folder, KEY_FILE);
  if (!existsSync(path)) return null;
  const { fingerprint, publicKey } = readKeyFile(path);
  return { fingerprint, publicKey };
};

/** Puts a key that is on record in the place of the one before. */
export const installNextKey = (folder: string): void =>
  renameSync(join(folder, NEXT_KEY_FILE), join(folder, KEY_FILE));

/**
 * The key that seals in a data folder: made when there is none and the record expects none. `expected` is the
 * fingerprint the record's last seal or change of key leaves in force, null when it names none. A change of key
 * that broke off half way is finished when the record has it, and taken back when it has not.
 */
export const openKey = (folder: string, expected: string | null): PlantKey => {
  const [path, next] = [join(folder, KEY_FILE), join(folder, NEXT_KEY_FILE)];
  if (existsSync(next)) {
    if (expected !== null && readKeyFile(next).fingerprint === expected) installNextKey(folder);
    else rmSync(next);
  }
  if (!existsSync(path)) {
    if (expected === null) return makeKeyFile(path);
    throw new PlainError(
      `The plant's key ${path} is gone, and the record names ${expected.slice(0, 16)}…: bring the file back from where you keep a copy. If it is lost for good, patchyard key --new --reason TEXT --data ${folder} makes another one and puts the loss on record.`,
    );
  }
  const key = readKeyFile(path);
  if (expected !== null && key.fingerprint !== expected)
    throw new PlainError(
      `${path} is key ${key.fingerprint.slice(0, 16)}…, but the record names ${expected.slice(0, 16)}…: bring back the file that belongs to this data folder. If that is lost for good, move this file elsewhere, then patchyard key --new --reason TEXT --data ${folder} makes another key and puts the loss on record.`,
    );
  return key;
};
