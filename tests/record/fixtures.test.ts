/**
 * One export of every format there ever was, made once and never edited: each must open and verify for good.
 *
 * They also watch PHYSICS_VERSION: while it is the one of a fixture, this program must decide its shift the same
 * way. When that fails the line decides otherwise than before: raise the version, and the fixture is declined.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { openExport } from '../../machines/record/open-export.ts';
import { PHYSICS_VERSION, PROGRAM } from '../../machines/record/version.ts';
import { NODE_TOOLS, sourceOfBytes } from '../../server/seal/node-crypto.ts';
import { exitCode, inWords } from '../../server/verify/verdict.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';

/** Format, SHA-256 of the file, key it is sealed with. */
const FIXTURES = [
  [
    1,
    '3d65da7f0b510162e0e7faf6fe65e3086c6214070ed97c29679b973b59f42c28',
    'e288987968680d83726512a3c93c7a6ebfe0b3fb3884ef02c6df20d67e91ae7d',
  ],
] as const;
const pathOf = (format: number): string =>
  fileURLToPath(new URL(`./fixtures/export-v${format}.zip`, import.meta.url));

describe.each(FIXTURES)('the export of format %i', (format, digest, key) => {
  it('was never edited', () => {
    expect(
      createHash('sha256')
        .update(readFileSync(pathOf(format)))
        .digest('hex'),
    ).toBe(digest);
  });

  it('opens, verifies with its key, and holds what it held', async () => {
    expect(await verifyFile(pathOf(format), { key })).toMatchObject({
      result: 'intact',
      keyPinned: true,
      key,
    });
    const reader = await openExport(sourceOfBytes(readFileSync(pathOf(format))), NODE_TOOLS);
    const kinds = new Set<string>();
    for await (const entries of reader.entries()) for (const { kind } of entries) kinds.add(kind);
    expect([...kinds].sort()).toEqual(['command', 'fact', 'opening', 'readings']);
    expect((await reader.scenario()).shift.id).toBe('emulsion-day');
    expect((await reader.sealFile())?.seal.body.closed).toBe('in order');
  });

  it('is decided the same way by its own version, and declined by any other', async () => {
    const verdict = await verifyFile(pathOf(format), { redecide: true });
    const reader = await openExport(sourceOfBytes(readFileSync(pathOf(format))), NODE_TOOLS);
    const { program, physics } = reader.manifest;
    const isOurs = program === PROGRAM && physics === PHYSICS_VERSION;
    expect(inWords(verdict)).toContain(isOurs ? 'lead to the same' : 'only the version that recorded it');
    expect(exitCode(verdict)).toBe(isOurs ? 0 : 4);
  });
});
