/** Every kind of tampering is named for what it is, in the server and in a browser alike. */
import { describe, expect, it } from 'vitest';
import { sourceOfBlob, WEB_CRYPTO, WEB_TOOLS } from '../../client/verify/web-tools.ts';
import { ExportError } from '../../machines/record/export.types.ts';
import { openExport } from '../../machines/record/open-export.ts';
import { verifyExport } from '../../machines/record/verify-export.ts';
import { exportOf, foundIn, tinyParts, verdictOf } from './support/made-export.ts';
import { TAMPERED, type Tampered, WHOLE } from './support/tampered.ts';

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
    const verdict = await verdictOf(await exportOf(tinyParts(null)));
    expect(verdict).toMatchObject({ result: 'intact', seal: null, entries: 8 });
  });
});

describe('the same export in a browser', () => {
  const inBrowser = async (bytes: Uint8Array, options: Tampered['options']) => {
    try {
      const source = sourceOfBlob(new Blob([Uint8Array.from(bytes)]));
      return await verifyExport(await openExport(source, WEB_TOOLS), WEB_CRYPTO, options ?? {});
    } catch (error) {
      if (!(error instanceof ExportError)) throw error;
      return { result: 'unreadable', code: error.code, detail: error.message } as const;
    }
  };

  it.each([...WHOLE, ...TAMPERED])('$name: the same verdict', async ({ make, options }) => {
    const bytes = await make();
    expect(await inBrowser(bytes, options)).toEqual(await verdictOf(bytes, options));
  });
});
