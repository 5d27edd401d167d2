import { describe, expect, it } from 'vitest';
import { foundIn, verdictOf } from './support/made-export.ts';
import { TAMPERED, WHOLE } from './support/tampered.ts';

describe('an export', () => {
  it.each(WHOLE)('$name: intact', async ({ make, options }) => {
    expect(foundIn(await verdictOf(await make(), options))).toEqual(['intact']);
  });

  it.each(TAMPERED)('$name: $finds', async ({ make, finds, options }) => {
    const found = foundIn(await verdictOf(await make(), options));
    expect(found).toContain(finds);
    // What was done is named, and nothing it did not do.
    expect(found).toHaveLength(1);
  });

  it('without a seal is whole, and said to be unsealed', async () => {
    const { tinyParts, exportOf } = await import('./support/made-export.ts');
    const verdict = await verdictOf(await exportOf(tinyParts(null)));
    expect(verdict).toMatchObject({ result: 'intact', seal: null, entries: 8 });
  });
});
