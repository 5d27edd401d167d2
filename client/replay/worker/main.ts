/** The replay worker: opens an export, runs its charts again in slices, and answers for moments and curves in between. */
import type { FromWorker, Side, ToWorker } from './messages.ts';
import { checkFile, codeOf, messageOf, openFile } from './open-file.ts';
import { openSession, type Session } from './session.ts';

const SLICE_MS = 25;
/** Between two words about how far it has got. */
const TELL_EVERY_MS = 400;
const CHECK_EVERY_MS = 100;

const say = (message: FromWorker, transfer: Transferable[] = []): void =>
  self.postMessage(message, { transfer });

let session: Session | null = null;
/** Moments asked for that have not been reached yet: the newest of each side. */
const waiting = new Map<Side, { readonly tick: number; readonly id: number }>();
let toldAtMs = 0;

const answerSeek = (side: Side, tick: number, id: number): void => {
  const view = session?.viewAt(tick, side) ?? null;
  if (view !== null) say({ is: 'view', side, id, tick: Math.round(view.shift.atMs / 100), view });
};

const answerReached = (): void => {
  if (session === null) return;
  for (const [side, { tick, id }] of waiting)
    if (tick <= session.reached || session.done) {
      waiting.delete(side);
      answerSeek(side, tick, id);
    }
};

const tellSoFar = (): void => {
  toldAtMs = performance.now();
  const soFar = session?.soFar() ?? null;
  if (soFar !== null) say({ is: 'soFar', soFar });
};

/** Lets messages in between slices; a timer would be held back to 4 ms each. */
const breath = new MessageChannel();
breath.port1.onmessage = () => fold();

function fold(): void {
  if (session === null) return;
  try {
    session.work(SLICE_MS);
  } catch (error) {
    tellSoFar();
    say({ is: 'stuck', tick: session.reached, why: messageOf(error) });
    return;
  }
  answerReached();
  if (session.done || performance.now() - toldAtMs > TELL_EVERY_MS) tellSoFar();
  if (!session.done) breath.port2.postMessage(null);
}

const open = async (file: Blob): Promise<void> => {
  try {
    session = await openSession(await openFile(file), (share) => say({ is: 'reading', share }));
  } catch (error) {
    say({ is: 'unreadable', code: codeOf(error), why: messageOf(error) });
    return;
  }
  // The first tick is the opening of the shift: with it there is something to see at once.
  if (session.opened.declined === null)
    try {
      session.work(SLICE_MS, 1);
    } catch (error) {
      say({ is: 'stuck', tick: 0, why: messageOf(error) });
    }
  say({ is: 'opened', opened: session.opened });
  tellSoFar();
  fold();
};

const check = async (file: Blob): Promise<void> => {
  let toldMs = 0;
  const verdict = await checkFile(file, (share) => {
    const nowMs = performance.now();
    if (nowMs - toldMs < CHECK_EVERY_MS) return;
    toldMs = nowMs;
    say({ is: 'checking', share });
  });
  say({ is: 'checked', verdict });
};

self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if (data.do === 'open') void open(data.file);
  else if (data.do === 'check') void check(data.file);
  else if (data.do === 'seek') {
    if (session === null || (data.tick > session.reached && !session.done)) waiting.set(data.side, data);
    else answerSeek(data.side, data.tick, data.id);
  } else if (session !== null) {
    const trace = session.trace(data.tags, data.fromTick, data.toTick, data.columns);
    say({ is: 'trace', id: data.id, trace }, [
      trace.ticks.buffer,
      ...trace.values.map((each) => each.buffer),
    ]);
  }
};
