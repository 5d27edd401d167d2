/** A real shift, recorded, sealed and exported: outside tools check it, and it is decided once more. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { canonical } from '../../machines/record/canonical.ts';
import type { Sealed } from '../../machines/record/chain.ts';
import { sealEntry } from '../../machines/record/chain.ts';
import type { Entry, EntryContent } from '../../machines/record/entry.ts';
import { README_V1 } from '../../machines/record/export-readme.ts';
import { lineOf } from '../../machines/record/line-text.ts';
import { openExport } from '../../machines/record/open-export.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { sha256 } from '../../server/digest.ts';
import { openKey } from '../../server/seal/key-file.ts';
import { NODE_TOOLS, sourceOfBytes } from '../../server/seal/node-crypto.ts';
import { verifyFile } from '../../server/verify/verify-file.ts';
import { exportOf, type Parts, sealOver } from './support/made-export.ts';
import { exportBytes, recordShift, tempFolder } from './support/recorded-shift.ts';

const folder = tempFolder();
const file = join(folder.path, 'shift.zip');
const unzipped = join(folder.path, 'unzipped');
let entries: Entry[] = [];
let scenario: Scenario;

beforeAll(async () => {
  await recordShift(folder.path, 12);
  const bytes = await exportBytes(folder.path, '1');
  writeFileSync(file, bytes);
  const reader = await openExport(sourceOfBytes(bytes), NODE_TOOLS);
  scenario = await reader.scenario();
  for await (const batch of reader.entries()) entries = [...entries, ...batch];
}, 60_000);
afterAll(folder.remove);

/** Runs a command line; a missing tool is a failure that says so. */
const shell = (command: string): string => {
  const done = spawnSync('bash', ['-o', 'pipefail', '-c', command], { cwd: unzipped, encoding: 'utf8' });
  if (done.status !== 0)
    throw new Error(
      `"${command}" ended with ${done.status}: ${done.stderr || done.stdout}\nThis check needs bash, unzip, sed, sha256sum and openssl 3: apt-get install unzip openssl`,
    );
  return done.stdout.trim();
};

/** The commands README.txt of an export shows, in order. */
const SHOWN = README_V1.split('\n')
  .filter((line) => /^ {2}(?:head|openssl) /.test(line))
  .map((line) => line.trim());

describe('by the commands its README shows', () => {
  beforeAll(() => {
    execFileSync('unzip', ['-q', file, '-d', unzipped]);
  });

  it('unzip finds it whole', () => {
    expect(execFileSync('unzip', ['-t', file], { encoding: 'utf8' })).toContain('No errors detected');
  });

  it('there are three', () => {
    expect(SHOWN.map((command) => command.split(' ')[0])).toEqual(['head', 'openssl', 'openssl']);
  });

  it('sha256sum reproduces the hash of an entry', () => {
    expect(shell(SHOWN[0] ?? '')).toBe(`${entries[0]?.hash}  -`);
    // Any other line as well.
    const other = (SHOWN[0] ?? '').replace('head -n 1 entries.ndjson', 'sed -n 40p entries.ndjson');
    expect(shell(other)).toBe(`${entries[39]?.hash}  -`);
  });

  it('openssl verifies the seal, and not another text', () => {
    const { seal } = JSON.parse(readFileSync(join(unzipped, 'seal.json'), 'utf8'));
    const [, verify = '', fingerprint = ''] = SHOWN.map((command) =>
      command.replaceAll('FINGERPRINT', seal.body.key),
    );
    expect(shell(verify)).toContain('Signature Verified Successfully');
    expect(shell(fingerprint)).toBe(`${seal.body.key}  -`);
    const forged = verify.replace('seal-signed.txt', 'manifest.json');
    expect(() => shell(forged)).toThrow(/Signature Verification Failure/);
  });
});

/** The record with some entries changed, made anew by a forger who holds the plant's own key. */
const forged = async (change: (content: EntryContent) => EntryContent): Promise<string> => {
  const key = openKey(folder.path, null);
  let end = { seq: 0, hash: '0'.repeat(64) };
  const chain = entries.map((entry): Sealed => {
    const { seq: _seq, atMs, wall, prev: _prev, hash: _hash, ...content } = entry;
    const sealed = sealEntry(end, change(content), atMs, wall, sha256);
    end = { seq: sealed.entry.seq, hash: sealed.entry.hash };
    return sealed;
  });
  const opening = entries[0]?.kind === 'opening' ? entries[0].body : null;
  if (opening === null) throw new Error('no opening');
  const parts: Parts = {
    scenario,
    opening: chain[0]?.entry.kind === 'opening' ? chain[0].entry.body : opening,
    openingSeq: 1,
    chain,
    lines: chain.map(({ entry, text }) => lineOf(text, entry.hash)),
    sealFile: { seal: sealOver(chain, key), countersignatures: [], rotations: [] },
    attachments: [],
  };
  const path = join(folder.path, 'forged.zip');
  writeFileSync(path, await exportOf(parts));
  return path;
};

describe('the handover', () => {
  it('stands in the fact that ends the shift, its counts equal to all that was booked', () => {
    const facts = entries.flatMap((entry) => (entry.kind === 'fact' ? [entry.body.fact] : []));
    const ended = facts.find((fact) => fact.is === 'shiftEnded');
    if (ended?.is !== 'shiftEnded' || ended.handover === undefined) throw new Error('no handover');
    const { counts, alarms, inhibits, permits } = ended.handover;
    const moved = facts.flatMap((fact) => (fact.is === 'massMoved' ? [fact] : []));
    const net = (account: string): number =>
      moved.reduce(
        (sum, { from, to, grams }) => sum + (to === account ? grams : 0) - (from === account ? grams : 0),
        0,
      );
    expect(counts.differenceGrams).toBe(0);
    expect(counts.inGrams).toBe(-net('materials'));
    expect(counts.inGrams).toBeGreaterThan(100_000);
    for (const { lot, grams } of counts.lots) expect(grams).toBe(net(`lot:${lot}`));
    expect(counts.wasteGrams + counts.waterLostGrams).toBe(net('waste') + net('waterLost'));
    expect([alarms, inhibits, permits].every(Array.isArray)).toBe(true);
  });
});

describe('decided once more', () => {
  it('the same facts come out', async () => {
    const verdict = await verifyFile(file, { redecide: true });
    const facts = entries.filter(({ kind }) => kind === 'fact').length;
    expect(verdict).toMatchObject({ result: 'intact', redecided: { result: 'same', facts } });
    expect(facts).toBeGreaterThan(30);
  });

  it('a fact altered by whoever holds the key is found, with time, chart, expected and recorded', async () => {
    const path = await forged((content) => {
      if (content.kind !== 'fact' || content.body.fact.is !== 'batchDischarged') return content;
      const { fact } = content.body;
      return { ...content, body: { ...content.body, fact: { ...fact, grams: fact.grams + 50_000 } } };
    });
    const honest = entries.find(
      ({ kind, body }) => kind === 'fact' && JSON.stringify(body).includes('batchDischarged'),
    );
    expect(honest).toBeDefined();
    const verdict = await verifyFile(path, { redecide: true });
    // Hashes, root and signature all fit: only the line itself gives it away.
    expect(verdict.result).toBe('intact');
    expect(verdict.redecided?.result).toBe('different');
    if (verdict.redecided?.result !== 'different') return;
    const [first] = verdict.redecided.differences;
    expect(first).toMatchObject({ chart: 'batch', fact: 'batchDischarged' });
    expect(first?.clock).toMatch(/^06:\d\d:\d\d$/);
    if (honest?.kind === 'fact') expect(first?.expected).toBe(canonical(honest.body.fact));
    expect(JSON.parse(first?.recorded ?? '{}').grams).toBe(
      JSON.parse(first?.expected ?? '{}').grams + 50_000,
    );
  });

  it('a reading bent is found too', async () => {
    const bent = await forged((content) =>
      content.kind === 'readings' && content.body.from > 3000
        ? {
            ...content,
            body: {
              ...content.body,
              rows: content.body.rows.map(([tick, changes]) =>
                'hopperKg' in changes ? [tick, { ...changes, hopperKg: 5 }] : [tick, changes],
              ),
            },
          }
        : content,
    );
    expect((await verifyFile(bent, { redecide: true })).redecided?.result).toBe('different');
  });

  it('another program or physics is declined, in words', async () => {
    for (const other of [{ program: 'patchyard 0.0.9' }, { physics: 999 }]) {
      const path = await forged((content) =>
        content.kind === 'opening' ? { ...content, body: { ...content.body, ...other } } : content,
      );
      const verdict = await verifyFile(path, { redecide: true });
      expect(verdict.redecided).toMatchObject({ result: 'declined' });
      if (verdict.redecided?.result === 'declined')
        expect(verdict.redecided.why).toContain(String(Object.values(other)[0]));
    }
  });
});
