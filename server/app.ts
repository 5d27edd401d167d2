/** The web application without a process around it: routes, live sockets and the built console. */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import helmet from '@fastify/helmet';
import fastifyStatic from '@fastify/static';
import swagger from '@fastify/swagger';
import Fastify, { type FastifyInstance, type FastifyReply } from 'fastify';
import {
  hasZodFastifySchemaValidationErrors,
  jsonSchemaTransform,
  serializerCompiler,
  validatorCompiler,
} from 'fastify-type-provider-zod';
import { registerBench } from './lab/bench-route.ts';
import { registerBlend } from './ledger/blend-route.ts';
import { registerPhotos } from './ledger/photos.ts';
import { registerRecallDrills } from './ledger/recall-drill.ts';
import { registerLedger } from './ledger/routes.ts';
import { registerTrace } from './ledger/trace-routes.ts';
import { createPresence, handOverForTheAbsent } from './live/absence.ts';
import { createDesk } from './live/desk.ts';
import { attachSockets } from './live/sockets.ts';
import { PlainError } from './plain-error.ts';
import { registerApi } from './routes/api.ts';
import { API_PAGE_STYLE, apiPage } from './routes/api-page.ts';
import { registerFigures } from './routes/figures.ts';
import { registerKeeping } from './routes/keeping.ts';
import { registerLoadTicket } from './routes/load-ticket.ts';
import { isOwnOrigin } from './routes/own-origin.ts';
import { registerPages } from './routes/pages.ts';
import { registerReports } from './routes/reports.ts';
import { registerShifts } from './routes/shifts.ts';
import type { PlantRunner } from './runner/runner.ts';
import type { Store } from './store/store.ts';
import type { TrainingHouse } from './training/house.ts';
import { serveTraining } from './training/live.ts';
import { registerTraining } from './training/routes.ts';

export type AppParts = {
  readonly runner: PlantRunner;
  readonly store: Store;
  /** Folder of the built console; a page says how to build it when it is missing. */
  readonly clientFolder: string;
  readonly log?: (line: string) => void;
  /** After so long without a sign of life a console may lose the controls to one that asks, ms. */
  readonly awayMs?: number;
  /** Training sessions beside the plant's line, when this server holds any. */
  readonly training?: TrainingHouse<unknown>;
};

const BODY_LIMIT = 16_384;

const CONTENT_POLICY = {
  useDefaults: false,
  directives: {
    defaultSrc: ["'self'"],
    scriptSrc: ["'self'"],
    // The console sets styles by script alone, which no policy has to allow; the page about the interface has one sheet.
    styleSrc: ["'self'", `'sha256-${createHash('sha256').update(API_PAGE_STYLE).digest('base64')}'`],
    imgSrc: ["'self'"],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    workerSrc: ["'self'"],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
};

/** What a route takes at most, in words: some take more than the rest. */
const tooMuch = (limitBytes: number): string =>
  `Too much at once: this request holds at most ${
    limitBytes < 1024 ** 2 ? `${limitBytes / 1024} KiB` : `${limitBytes / 1024 ** 2} MiB`
  }. Send it in parts.`;

const WORDS: { readonly [status: number]: string } = {
  415: 'Send the body as JSON, with content-type application/json.',
};

const NOT_BUILT = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Patchyard</title>
<p>The server runs, but the console has not been built. Stop it and run <code>npm start</code>, which builds it.</p></html>`;

const serveConsole = async (app: FastifyInstance, folder: string): Promise<void> => {
  const built = existsSync(folder);
  if (built)
    await app.register(fastifyStatic, {
      root: folder,
      cacheControl: false,
      // Built files carry a digest in their name; the page itself must always be fresh.
      setHeaders: (response, path) => {
        const lasting = path.includes('assets');
        response.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    });
  else
    app.get('/', { schema: { hide: true } }, async (_request, reply) =>
      reply.type('text/html').send(NOT_BUILT),
    );
  app.setNotFoundHandler(async (request, reply) => {
    const page = request.method === 'GET' && request.headers.accept?.includes('text/html') === true;
    if (built && page && !request.url.startsWith('/api')) return reply.sendFile('index.html');
    return reply.code(404).send({ because: [`There is nothing at ${request.url.slice(0, 100)}.`] });
  });
};

export const buildApp = async ({
  runner,
  store,
  clientFolder,
  log,
  awayMs,
  training,
}: AppParts): Promise<FastifyInstance> => {
  const app = Fastify({
    bodyLimit: BODY_LIMIT,
    requestTimeout: 15_000,
    // An address that cannot even be read is answered like everything else.
    frameworkErrors: (error, _request, reply) => {
      const plain = reply as FastifyReply;
      void plain.code(error.statusCode ?? 400).send({ because: [error.message] });
    },
    // Consoles hold their sockets open: closing the server must not wait for them.
    forceCloseConnections: true,
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.addHook('onRequest', async (request, reply) => {
    if (isOwnOrigin(request.headers.host, request.headers.origin)) return;
    await reply.code(403).send({ because: ['This server answers only its own pages on this machine.'] });
  });
  // Only JSON comes in; the framework would take plain text too.
  app.removeContentTypeParser('text/plain');
  app.setErrorHandler(async (error: Error & { statusCode?: number }, request, reply) => {
    if (hasZodFastifySchemaValidationErrors(error))
      return reply.code(400).send({
        because: error.validation
          .slice(0, 5)
          .map((v) => `${v.instancePath.slice(1).replaceAll('/', '.')} ${v.message ?? ''}`.trim()),
      });
    // Words that were written for people, as of a damaged chunk of the record.
    if (error instanceof PlainError) {
      log?.(error.message);
      return reply.code(500).send({ because: [error.message] });
    }
    const status = error.statusCode ?? 500;
    if (status === 413)
      return reply.code(413).send({ because: [tooMuch(request.routeOptions.bodyLimit ?? BODY_LIMIT)] });
    if (status >= 500) log?.(error.stack ?? error.message);
    return reply
      .code(status)
      .send({ because: [WORDS[status] ?? (status >= 500 ? 'The server failed to answer.' : error.message)] });
  });
  await app.register(helmet, {
    contentSecurityPolicy: CONTENT_POLICY,
    strictTransportSecurity: false,
    crossOriginEmbedderPolicy: false,
  });
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Patchyard',
        version: '0.1.0',
        description: 'Simulator, training and record keeping; not a safety-rated controller.',
      },
    },
    transform: jsonSchemaTransform,
  });

  const desk = createDesk(runner, log ?? (() => undefined));
  const presence = createPresence(() => performance.now());
  registerApi(app, { runner, store, desk, presence });
  registerShifts(app, { runner, store, desk });
  registerFigures(app, runner);
  registerKeeping(app, store);
  registerReports(app, store);
  registerLedger(app, { runner, store, desk });
  registerLoadTicket(app, store);
  registerPhotos(app, store);
  registerTrace(app, store);
  registerRecallDrills(app, { runner, store, desk });
  registerBlend(app);
  registerBench(app, { runner, store });
  registerPages(app);
  const say = log ?? (() => undefined);
  if (training !== undefined) registerTraining(app, training, say);
  app.get('/api/openapi.json', { schema: { hide: true } }, async () => app.swagger());
  app.get('/api', { schema: { hide: true } }, async (_request, reply) =>
    reply.type('text/html; charset=utf-8').send(apiPage(app.swagger() as Parameters<typeof apiPage>[0])),
  );
  await serveConsole(app, clientFolder);

  const closeSockets = attachSockets(app.server, runner, desk, presence, (io) =>
    training === undefined ? () => undefined : serveTraining(io, training, say),
  );
  const stopWatching = handOverForTheAbsent(runner, presence, desk.command, awayMs);
  app.addHook('preClose', async () => {
    stopWatching();
    await closeSockets();
  });
  return app;
};
