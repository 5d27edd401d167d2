/** The chain: whole when untouched, and every way of tampering with it is found at its place. */
import { describe, expect, it } from 'vitest';
import { canonical } from '../../machines/record/canonical.ts';
import { verifyChain } from '../../machines/record/chain.ts';
import { type Entry, GENESIS } from '../../machines/record/entry.ts';
import { sha256 } from '../../server/digest.ts';
import { sampleRecord } from './samples.ts';

const record = (): Entry[] => sampleRecord(30).map((sealed) => sealed.entry);

const tampered = (at: number, change: (entry: Entry) => Entry): Entry[] =>
  record().map((entry) => (entry.seq === at ? change(entry) : entry));

describe('record chain', () => {
  it('begins behind 64 zeros and counts from 1', () => {
    const [first] = record();
    expect(first?.prev).toBe(GENESIS);
    expect(first?.seq).toBe(1);
  });

  it('takes its hash over exactly the canonical form of the entry without its hash', () => {
    for (const { entry, text } of sampleRecord(9)) {
      const { hash, ...rest } = entry;
      expect(text).toBe(canonical(rest));
      expect(hash).toBe(sha256(text));
    }
  });

  it('is found whole when nobody touched it', () => {
    const entries = record();
    const last = entries.at(-1) as Entry;
    expect(verifyChain(entries, sha256)).toEqual({
      ok: true,
      end: { seq: 31, hash: last.hash },
      entries: 31,
    });
  });

  it.each([
    ['a changed value', (e: Entry) => ({ ...e, atMs: e.atMs + 1 })],
    ['a changed time of writing', (e: Entry) => ({ ...e, wall: '2026-05-04T07:00:00.000Z' })],
    ['a changed body', (e: Entry) => ({ ...e, body: { ...e.body, tick: 999 } }) as unknown as Entry],
    ['an added field', (e: Entry) => ({ ...e, extra: 1 }) as unknown as Entry],
    ['a changed hash', (e: Entry) => ({ ...e, hash: sha256('other') })],
  ])('%s is found at the entry itself', (_what, change) => {
    expect(verifyChain(tampered(17, change), sha256)).toMatchObject({ ok: false, seq: 17 });
  });

  it('an entry forged with a fitting hash is found at the next one', () => {
    const forged = tampered(17, (entry) => {
      const { hash: _old, ...rest } = { ...entry, atMs: 1 };
      return { ...rest, hash: sha256(canonical(rest)) } as Entry;
    });
    expect(verifyChain(forged, sha256)).toEqual({
      ok: false,
      seq: 18,
      why: 'it does not name the entry before it',
    });
  });

  it('a removed entry is found, and says which one is missing', () => {
    const verdict = verifyChain(
      record().filter((entry) => entry.seq !== 17),
      sha256,
    );
    expect(verdict).toMatchObject({
      ok: false,
      seq: 18,
      why: expect.stringContaining('entry 17 is missing'),
    });
  });

  it('two entries in the wrong order are found', () => {
    const entries = record();
    const [a, b] = [entries[16] as Entry, entries[17] as Entry];
    entries[16] = b;
    entries[17] = a;
    expect(verifyChain(entries, sha256)).toMatchObject({ ok: false, seq: 18 });
  });
});
