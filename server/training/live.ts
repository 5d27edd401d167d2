/** Training over the live socket: a namespace a session for its consoles, and one for the seats that watch them all. */
import type { Namespace } from 'socket.io';
import type { Answer } from '../../machines/live/protocol.ts';
import { type SessionTile, watchSchema } from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { createPresence } from '../live/absence.ts';
import { answerer, type ConsoleNamespace, serveConsoles } from '../live/consoles.ts';
import { createDesk } from '../live/desk.ts';
import { createRateLimit, TOO_MANY } from '../live/rate-limit.ts';
import type { LiveServer } from '../live/sockets.ts';
import type { TrainingHouse } from './house.ts';
import { tileFor, whyNotWatch } from './rights.ts';
import type { TrainingSession } from './session.ts';

const TILES_EVERY_MS = 500;
const BANDS_EVERY_MS = 250;

type Watcher = {
  readonly tell: (tiles: readonly SessionTile[]) => void;
  person: Person | null;
  last: string;
};

/** Where the consoles of a session meet. */
const namespaceOf = (io: LiveServer, session: string): ConsoleNamespace => io.of(`/training/${session}`);

const serveSession = <R>(
  io: LiveServer,
  session: TrainingSession<R>,
  log: (line: string) => void,
): (() => void) => {
  const namespace = namespaceOf(io, session.id);
  const desk = createDesk(session, log);
  const presence = createPresence(() => performance.now());
  const people = () => session.scenario.people;
  const stop = serveConsoles(namespace, session, { ...desk, people }, presence, {
    whyNotSee: (person) => whyNotWatch(person, session.opened),
    onWatching: (consoles) => {
      session.watching = consoles;
    },
    onGreeted: (socket) => socket.emit('drill', session.band()),
  });
  let last = '';
  const tellBand = () => {
    if (session.watching === 0) return;
    const band = session.band();
    // Whole seconds: the band is told of time passing no more often than it shows it.
    const now = JSON.stringify({
      ...band,
      atMs: 0,
      elapsedS: Math.floor(band.elapsedS),
      leftS: Math.floor(band.leftS),
    });
    if (now === last) return;
    last = now;
    namespace.to('sees').emit('drill', band);
  };
  const timer = setInterval(tellBand, BANDS_EVERY_MS);
  timer.unref();
  return () => {
    clearInterval(timer);
    stop();
    namespace.disconnectSockets();
    namespace.removeAllListeners();
    io._nsps.delete(namespace.name);
  };
};

/** Opens the namespaces of all sessions, now and later; returns how to leave them. */
export const serveTraining = <R>(
  io: LiveServer,
  house: TrainingHouse<R>,
  log: (line: string) => void,
): (() => void) => {
  const leaves = new Map<string, () => void>();
  const stopOpened = house.onOpened((session) => leaves.set(session.id, serveSession(io, session, log)));
  const stopClosed = house.onClosed((session) => {
    leaves.get(session.id)?.();
    leaves.delete(session.id);
  });

  const limit = createRateLimit(() => performance.now());
  const watchers = new Set<Watcher>();
  const seats = io.of('/training') as unknown as Namespace;
  const tell = (watcher: Watcher, tiles: readonly SessionTile[]) => {
    const { person } = watcher;
    if (person === null) return;
    const seen = tiles
      .filter((tile) => whyNotWatch(person, tile) === null)
      .map((tile) => tileFor(person, tile));
    const now = JSON.stringify(seen);
    if (now === watcher.last) return;
    watcher.last = now;
    watcher.tell(seen);
  };
  seats.on('connection', (socket) => {
    const watcher: Watcher = { tell: (tiles) => socket.emit('sessions', tiles), person: null, last: '' };
    watchers.add(watcher);
    socket.on('disconnect', () => watchers.delete(watcher));
    socket.on('error', () => socket.conn.close());
    socket.on('iAm', (who: unknown, reply: unknown) => {
      const said = (answer: Answer) => answerer(reply)(answer);
      if (!limit.allow(socket.id)) return said({ ok: false, because: [TOO_MANY] });
      const parsed = watchSchema.safeParse(who);
      const person = parsed.success ? house.personOf(parsed.data.person) : null;
      if (person === null) return said({ ok: false, because: ['Say who you are: a person on the list.'] });
      watcher.person = person;
      watcher.last = '';
      said({ ok: true });
      tell(watcher, house.tiles());
    });
  });
  const timer = setInterval(() => {
    if (watchers.size === 0) return;
    const tiles = house.tiles();
    for (const watcher of watchers) tell(watcher, tiles);
  }, TILES_EVERY_MS);
  timer.unref();

  return () => {
    clearInterval(timer);
    stopOpened();
    stopClosed();
    for (const leave of leaves.values()) leave();
  };
};
