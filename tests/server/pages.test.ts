/** Pages that stand alone: asked for wrongly they are refused in words, and the server gives only those there are. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { main } from '../../server/cli.ts';
import { serveFake } from './support/serve-fake.ts';

const scratch = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'patchyard-pages-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

const said = async (args: readonly string[]): Promise<{ code: number; error: string; out: string }> => {
  const error = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const out = vi.spyOn(console, 'log').mockImplementation(() => undefined);
  try {
    const code = await main(args);
    return { code, error: error.mock.calls.flat().join('\n'), out: out.mock.calls.flat().join('\n') };
  } finally {
    error.mockRestore();
    out.mockRestore();
  }
};

describe('patchyard page', () => {
  it.each([
    [['page'], /takes the name of one page: viewer or interlock/],
    [['page', 'console', '--out', 'x.html'], /no page console: there are viewer and interlock/],
    [['page', 'viewer'], /needs --out/],
    [['page', 'viewer', 'interlock', '--out', 'x.html'], /takes the name of one page/],
  ])('%j is wrong use', async (args, words) => {
    const { code, error } = await said(args);
    expect(code).toBe(2);
    expect(error).toMatch(words);
  });

  it('says what it is for', async () => {
    const { code, out } = await said(['page', '--help']);
    expect(code).toBe(0);
    expect(out).toMatch(/works from a disk, offline/);
  });

  it('says why it could not write', async () => {
    const out = join(scratch(), 'no-such-folder', 'viewer.html');
    const { code, error } = await said(['page', 'viewer', '--out', out]);
    expect(code).toBe(1);
    expect(error).toMatch(/cannot be written|has not been built/);
  });
});

describe('GET /api/pages', () => {
  it.each(['console', '..%2f..%2fpackage.json', 'viewer.html'])('%s is no page', async (name) => {
    const { url } = await serveFake();
    const response = await fetch(`${url}/api/pages/${name}`);
    expect(response.status).toBe(400);
    expect(((await response.json()) as { because: string[] }).because[0]).toMatch(/name/);
  });

  it('a page is a download, or it is said how to build it', async () => {
    const { url } = await serveFake();
    const response = await fetch(`${url}/api/pages/viewer`);
    if (response.status === 404)
      expect(await response.json()).toEqual({
        because: ['The page viewer has not been built: start the program with npm start.'],
      });
    else {
      expect(response.status).toBe(200);
      expect(response.headers.get('content-disposition')).toBe(
        'attachment; filename="patchyard-viewer.html"',
      );
      expect(await response.text()).toMatch(/^<!doctype html>/i);
    }
  });
});
