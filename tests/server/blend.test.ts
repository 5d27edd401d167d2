/** The blend over HTTP: answers, refusals in words, and nothing left in the record. */
import { describe, expect, it } from 'vitest';
import { serveFake } from './support/serve-fake.ts';

const bin = (n: number, passing: number, more = {}) => ({
  bin: n,
  name: `bin ${n}`,
  grading: [
    { sieveMm: 10, passingPct: 100 },
    { sieveMm: 2, passingPct: passing },
  ],
  ownBinderPct: 0,
  fromPct: 0,
  toPct: 100,
  ...more,
});

const question = {
  bins: [bin(1, 20), bin(2, 80)],
  band: [
    { sieveMm: 10, fromPct: 100, toPct: 100, targetPct: 100 },
    { sieveMm: 2, fromPct: 40, toPct: 60, targetPct: 50 },
  ],
  marginPct: 10,
};

const ask = async (url: string, body: unknown) => {
  const response = await fetch(`${url}/api/mixes/blend`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
};

describe('the blend over HTTP', () => {
  it('finds the blend, tells what stands in the way, and refuses a question that makes no sense', async () => {
    const { url } = await serveFake();
    // 20·x + 80·(1 − x) = 50 at x = 0.5.
    expect(await ask(url, question)).toMatchObject({
      status: 200,
      body: {
        kind: 'fits',
        shares: [
          { bin: 1, dryPct: 50 },
          { bin: 2, dryPct: 50 },
        ],
      },
    });
    // Both bins coarser than 40 % at 2 mm: too coarse there by 5 at the least.
    expect(await ask(url, { ...question, bins: [bin(1, 20), bin(2, 35)] })).toMatchObject({
      body: {
        kind: 'does not fit',
        outside: [{ sieveMm: 2, side: 'too coarse', byPct: expect.closeTo(5, 6) }],
      },
    });
    expect(
      await ask(url, { ...question, bins: [bin(1, 20, { toPct: 30 }), bin(2, 80, { toPct: 30 })] }),
    ).toMatchObject({
      body: { kind: 'wrong', because: [expect.stringContaining('add to 60 % only')] },
    });
    for (const kind of ['command', 'ledger', 'note']) {
      const kept = (await (await fetch(`${url}/api/record?kind=${kind}`)).json()) as { entries: unknown[] };
      expect(kept.entries).toEqual([]);
    }
  });

  it('refuses what is not a question, in words', async () => {
    const { url } = await serveFake();
    const upside = { ...question, band: [...question.band].reverse() };
    expect(await ask(url, upside)).toMatchObject({
      status: 400,
      body: { because: [expect.stringContaining('write sieves from large to small')] },
    });
    expect((await ask(url, { ...question, bins: [] })).body).toMatchObject({
      because: [expect.stringContaining('give at least one bin')],
    });
    expect((await ask(url, { ...question, marginPct: 80 })).status).toBe(400);
    expect((await ask(url, { ...question, bins: [bin(1, 20, { name: 'x', grading: 'none' })] })).status).toBe(
      400,
    );
  });
});
