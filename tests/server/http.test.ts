/** The HTTP interface, and what is kept away from it. */
import { createHash } from 'node:crypto';
import { request } from 'node:http';
import { describe, expect, it } from 'vitest';
import { serveFake } from './support/serve-fake.ts';
import { commandOf } from './support/tools.ts';

const json = async (url: string, init?: RequestInit) => {
  const response = await fetch(url, init);
  return { status: response.status, body: await response.json() };
};

const post = (url: string, body: unknown, type = 'application/json') =>
  json(`${url}/api/commands`, {
    method: 'POST',
    headers: { 'content-type': type },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });

const by = { person: 'kim', console: 'console-a' };

describe('HTTP interface', () => {
  it('tells state, people, head and health', async () => {
    const { url } = await serveFake();
    expect((await json(`${url}/api/state`)).body).toMatchObject({
      view: { shift: { id: 'fake-day' } },
      run: { speed: 1 },
    });
    expect((await json(`${url}/api/people`)).body.people).toHaveLength(3);
    expect((await json(`${url}/api/record/head`)).body).toMatchObject({
      hash: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
    expect(await json(`${url}/api/health`)).toMatchObject({ status: 200, body: { ok: true, trouble: null } });
  });

  it('carries out a command and has it on record when it answers', async () => {
    const { url } = await serveFake();
    const id = commandOf({ do: 'takeControls' }).id;
    const sent = { id, by, command: { do: 'takeControls' } };
    expect(await post(url, sent)).toEqual({ status: 200, body: { ok: true } });
    expect(await post(url, sent)).toEqual({ status: 200, body: { ok: true } });
    const { body } = await json(`${url}/api/record?kind=command`);
    expect(body.entries).toHaveLength(1);
    expect(body.entries[0].body.envelope.by).toEqual({
      person: 'kim',
      role: 'operator',
      console: 'console-a',
    });
  });

  it('refuses in words what it does not know', async () => {
    const { url } = await serveFake();
    expect(
      await post(url, { id: 'long-enough', by: { ...by, person: 'nobody' }, command: { do: 'hold' } }),
    ).toEqual({
      status: 200,
      body: { ok: false, because: ['nobody is not on the list of people.'] },
    });
    const bad = [
      [{ id: 'long-enough', by, command: { do: 'explode' } }, 400],
      [{ id: 'short', by, command: { do: 'hold' } }, 400],
      [{}, 400],
      ['{"half', 400],
      ['x'.repeat(50_000), 413],
    ] as const;
    for (const [body, status] of bad) {
      const answer = await post(url, body);
      expect(answer.status).toBe(status);
      expect(answer.body.because[0]).toEqual(expect.any(String));
    }
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x'])
      expect(await post(url, '{}', type)).toEqual({
        status: 415,
        body: { because: ['Send the body as JSON, with content-type application/json.'] },
      });
    // An address that cannot be decoded is answered in the same shape.
    expect(await json(`${url}/%`)).toEqual({ status: 400, body: { because: [expect.any(String)] } });
  });

  it('takes an emergency stop from somebody who is not on the list, and nothing else', async () => {
    const { url } = await serveFake();
    const nobody = { person: 'nobody', console: 'console-x' };
    const stop = { id: 'long-enough', by: nobody, command: { do: 'emergencyStop' } };
    expect(await post(url, stop)).toEqual({ status: 200, body: { ok: true } });
    const { body } = await json(`${url}/api/record?kind=command`);
    expect(body.entries[0].body.envelope.by).toEqual({
      person: 'someone at this console',
      role: 'operator',
      console: 'console-x',
    });
  });

  it('pages through the record in order', async () => {
    const { url } = await serveFake({ speed: 60 });
    await new Promise((go) => setTimeout(go, 500));
    const seqs: number[] = [];
    let after: number | null = 0;
    for (let page = 0; page < 3 && after !== null; page++) {
      const { body } = await json(`${url}/api/record?after=${after}&limit=4`);
      seqs.push(...body.entries.map((e: { seq: number }) => e.seq));
      after = body.next;
    }
    expect(seqs).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect((await json(`${url}/api/record?limit=100000`)).status).toBe(400);
    expect((await json(`${url}/api/record?after=minus`)).status).toBe(400);
  });

  it('describes itself, for tools and for people', async () => {
    const { url } = await serveFake();
    const { body } = await json(`${url}/api/openapi.json`);
    expect(body.openapi).toMatch(/^3\.1/);
    const reports = ['shift', 'batch', 'lot', 'alarms', 'refusals', 'certificate'].flatMap((kind) =>
      ['', '.csv', '.json', '.pdf'].map((form) => `/api/reports/${kind}${form}`),
    );
    const allReports = [...reports, '/api/reports/choices'].sort();
    expect(Object.keys(body.paths).sort()).toEqual([
      '/api/commands',
      '/api/figures',
      '/api/health',
      '/api/keeping',
      '/api/key',
      '/api/lab/bench/{lot}/{sample}',
      '/api/lab/labels',
      '/api/ledger/lots/{lot}',
      '/api/ledger/{book}',
      '/api/ledger/{book}/commands',
      '/api/loads/{load}/ticket.pdf',
      '/api/mixes/blend',
      '/api/pages/{name}',
      '/api/people',
      '/api/photos',
      '/api/photos/{sha256}',
      '/api/record',
      '/api/record/found',
      '/api/record/head',
      ...allReports,
      '/api/shifts',
      '/api/shifts/{shift}/countersignature',
      '/api/shifts/{shift}/export',
      '/api/shifts/{shift}/seal',
      '/api/state',
      '/api/trace',
      '/api/trace.csv',
      '/api/trace/drills',
      '/api/trace/drills/{drill}',
      '/api/trace/suggest',
      '/api/training/drills',
      '/api/training/history',
      '/api/training/sessions',
      '/api/training/sessions/{session}',
      '/api/training/sessions/{session}/certificate.pdf',
      '/api/training/sessions/{session}/debrief',
      '/api/training/sessions/{session}/view',
    ]);
    const command = body.paths['/api/commands'].post.requestBody.content['application/json'].schema;
    expect(JSON.stringify(command)).toContain('lightBurner');
    const page = await (await fetch(`${url}/api`)).text();
    expect(page).toContain('/api/record/head');
    expect(page).not.toContain('<script');
  });

  it('sends the headers that keep foreign scripts out', async () => {
    const { url } = await serveFake();
    const { headers } = await fetch(`${url}/api`);
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    // Nothing inline, from data or from blobs; what the one style sheet is, its digest says.
    expect(policy).not.toMatch(/unsafe|data:|blob:/);
    const sheet = /<style>([^<]*)<\/style>/.exec(await (await fetch(`${url}/api`)).text())?.[1] ?? '';
    const digest = createHash('sha256').update(sheet).digest('base64');
    expect(policy).toContain(`style-src 'self' 'sha256-${digest}'`);
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('strict-transport-security')).toBeNull();
    expect(headers.get('access-control-allow-origin')).toBeNull();
  });

  it("answers neither another site's page nor another name for this machine", async () => {
    const { url } = await serveFake();
    const status = (headers: { [name: string]: string }) =>
      new Promise<number>((done, failed) => {
        request(`${url}/api/state`, { headers }, (response) => {
          response.resume();
          done(response.statusCode ?? 0);
        })
          .on('error', failed)
          .end();
      });
    expect(await status({})).toBe(200);
    expect(await status({ origin: url })).toBe(200);
    expect(await status({ origin: 'http://other.test' })).toBe(403);
    expect(await status({ host: 'other.test:4410' })).toBe(403);
  });

  it('says in words that a path does not exist', async () => {
    const { url } = await serveFake();
    expect(await json(`${url}/api/nothing`)).toEqual({
      status: 404,
      body: { because: ['There is nothing at /api/nothing.'] },
    });
    expect((await fetch(`${url}/../../package.json`)).status).toBe(404);
  });
});

describe('starting a server', () => {
  it('is refused on a port that is taken, in one line, with nothing written', async () => {
    const { url } = await serveFake();
    const port = Number(new URL(url).port);
    await expect(serveFake({ port })).rejects.toThrow(
      new RegExp(`^Port ${port} on 127.0.0.1 is taken: .* --port ${port + 1}\\.$`),
    );
  });

  it('is refused on a folder that is in use', async () => {
    const { folder } = await serveFake();
    await expect(serveFake({ dataFolder: folder })).rejects.toThrow(/in use by another server/);
  });

  it.each(['0.0.0.0', '192.168.1.5', '::', 'example.test'])(
    'is refused at %s, which is not this machine alone',
    async (host) => {
      await expect(serveFake({ host })).rejects.toThrow(
        `--host ${host} is refused: there are no accounts yet`,
      );
    },
  );
});
