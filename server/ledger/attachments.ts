/** Files that entries name, kept beside the record by their SHA-256: written whole or not at all, never changed. */

import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { sha256OfBytes } from '../digest.ts';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';

const DIGEST = /^[0-9a-f]{64}$/;

export const attachmentsFolder = (dataFolder: string): string => join(dataFolder, 'attachments');

/** Where it lies or would lie. Throws when it is no digest: it must never become another path. */
export const attachmentFile = (dataFolder: string, sha256: string): string => {
  if (!DIGEST.test(sha256)) throw new PlainError(`${sha256.slice(0, 80)} names no attachment.`);
  return join(attachmentsFolder(dataFolder), sha256);
};

export const hasAttachment = (dataFolder: string, sha256: string): boolean =>
  DIGEST.test(sha256) && existsSync(attachmentFile(dataFolder, sha256));

const syncFolder = (folder: string): void => {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

/** Keeps the bytes; returns their SHA-256. Throws PlainError when they cannot be written; nothing is left behind then. */
export const keepAttachment = (dataFolder: string, bytes: Buffer): string => {
  const sha256 = sha256OfBytes(bytes);
  const file = attachmentFile(dataFolder, sha256);
  if (existsSync(file)) return sha256;
  const folder = attachmentsFolder(dataFolder);
  const part = join(folder, `.${randomBytes(8).toString('hex')}.part`);
  try {
    mkdirSync(folder, { recursive: true });
    const handle = openSync(part, 'wx', 0o600);
    try {
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(part, file);
    syncFolder(folder);
    return sha256;
  } catch (error) {
    rmSync(part, { force: true });
    const why = codeOf(error) === 'ENOSPC' ? 'the disk is full' : codeOf(error) || messageOf(error);
    throw new PlainError(`The photograph could not be kept (${why}): make room and send it again.`);
  }
};

/** The bytes as they were kept; null when they are gone. Throws PlainError when they are not what their name says. */
export const readAttachment = (dataFolder: string, sha256: string): Buffer | null => {
  const file = attachmentFile(dataFolder, sha256);
  if (!existsSync(file)) return null;
  const bytes = readFileSync(file);
  if (sha256OfBytes(bytes) !== sha256)
    throw new PlainError(
      `The file ${file} is not what it was when it was kept: fetch it from the last backup of the data folder.`,
    );
  return bytes;
};
