/** The page's side of a replay: two workers (one runs the charts again, one checks the file) and where each side stands. */
import type { LineView } from '../../machines/line/view.types.ts';
import { type Live, NOTHING_YET } from '../live/reducer.ts';
import { share } from '../live/share.ts';
import { createStore, type Store } from '../live/store.ts';
import { troubleOf } from '../live/trouble.ts';
import { failureOf } from './failures.ts';
import {
  lastTickOf,
  NOTHING_OPEN,
  type ReplaySpeed,
  type ReplayState,
  type Side,
  TICKS_PER_S,
} from './replay.types.ts';
import type { FromWorker, ToWorker } from './worker/messages.ts';
import type { Trace } from './worker/traces.ts';

/** A new worker running client/replay/worker/main.ts; how it is made differs between the console and the single page. */
export type SpawnWorker = () => Worker;

export type TraceAsked = {
  readonly tags: readonly string[];
  readonly fromTick: number;
  readonly toTick: number;
  readonly columns: number;
};

const PLAY_EVERY_MS = 100;
/** A page that was hidden for a while goes on from where it stood instead of leaping. */
const LONGEST_FRAME_MS = 500;

const liveOf = (view: LineView, last: Live, state: ReplayState): Live => {
  const people = state.opened?.scenario.people ?? [];
  const { holder } = view.seat;
  const me =
    state.seenBy === 'onlooker' || holder === null ? null : people.find((one) => one.id === holder.person);
  return {
    ...NOTHING_YET,
    link: 'live',
    n: 0,
    program: state.opened?.manifest.program ?? '',
    people,
    me: me ?? null,
    view: share(last.view, view),
    run: last.run ?? {
      simulated: true,
      speed: 1,
      paused: true,
      seq: state.opened?.manifest.entries.last ?? 0,
      head: state.opened?.manifest.entries.head ?? '',
      trouble: null,
    },
  };
};

export class Replay {
  readonly state: Store<ReplayState> = createStore(NOTHING_OPEN);
  readonly sides: { readonly [S in Side]: Store<Live> } = {
    a: createStore(NOTHING_YET),
    b: createStore(NOTHING_YET),
  };
  #spawn: SpawnWorker;
  #worker: Worker | null = null;
  #checker: Worker | null = null;
  #file: Blob | null = null;
  #ids = 0;
  /** The request each side waits for, and the newest wish behind it: a drag asks far more often than is answered. */
  #asked: { [S in Side]: number | null } = { a: null, b: null };
  #wished: { [S in Side]: number | null } = { a: null, b: null };
  #traces = new Map<number, (trace: Trace) => void>();
  #timer: ReturnType<typeof setInterval> | null = null;
  #position = 1;
  /** Counts openings, so that a download that was left behind changes nothing. */
  #turn = 0;

  constructor(spawn: SpawnWorker) {
    this.#spawn = spawn;
  }

  #change(change: Partial<ReplayState>): void {
    this.state.set({ ...this.state.get(), ...change });
  }

  /** Opens a file; whatever was open is let go first. Nothing leaves this computer. */
  open(file: Blob, name: string): void {
    this.close();
    this.#change({ phase: 'reading', file: { name, bytes: file.size } });
    this.#file = file;
    this.#worker = this.#start({ do: 'open', file });
  }

  /** Opens what `fetching` brings, unless something else was opened meanwhile. */
  async openFetched(
    name: string,
    fetching: (onShare: (share: number) => void) => Promise<Blob>,
  ): Promise<void> {
    this.close();
    const turn = this.#turn;
    this.#change({ phase: 'fetching', file: { name, bytes: 0 } });
    try {
      const file = await fetching((done) => {
        if (turn === this.#turn) this.#change({ share: done });
      });
      if (turn === this.#turn) this.open(file, name);
    } catch (error) {
      if (turn === this.#turn) this.fail('The export could not be fetched', troubleOf(error));
    }
  }

  fail(title: string, why: string): void {
    this.#end();
    this.#change({ ...NOTHING_OPEN, file: this.state.get().file, phase: 'failed', failed: { title, why } });
  }

  /** Lets go of the file and stops all work on it. */
  close(): void {
    this.#end();
    this.#turn += 1;
    const { speed, hindsight, seenBy } = this.state.get();
    this.state.set({ ...NOTHING_OPEN, speed, hindsight, seenBy });
    for (const side of ['a', 'b'] as const) this.sides[side].set(NOTHING_YET);
  }

  #end(): void {
    this.#worker?.terminate();
    this.#checker?.terminate();
    this.#worker = null;
    this.#checker = null;
    this.#file = null;
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
    this.#asked = { a: null, b: null };
    this.#wished = { a: null, b: null };
    this.#traces.clear();
    this.#position = 1;
  }

  /** Begun when there is something to see: checking at the same time would keep the first screen back. */
  #check(): void {
    if (this.#file === null) return;
    this.#checker = this.#start({ do: 'check', file: this.#file });
    this.#change({ check: { is: 'running', share: 0 } });
  }

  #start(first: ToWorker): Worker {
    const worker = this.#spawn();
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => this.#hear(data);
    worker.onerror = (event) => {
      event.preventDefault();
      const why = event.message || 'Its worker stopped without a word: the browser may be short of memory.';
      if (first.do === 'check')
        this.#change({
          check: { is: 'done', verdict: { result: 'unreadable', code: 'damaged', detail: why } },
        });
      else this.fail('The export could not be opened', why);
    };
    worker.postMessage(first);
    return worker;
  }

  #hear(said: FromWorker): void {
    switch (said.is) {
      case 'reading':
        this.#change({ share: said.share });
        return;
      case 'unreadable':
        this.fail(...failureOf(said.code, said.why));
        return;
      case 'opened':
        this.#change({ phase: 'open', opened: said.opened, share: 1 });
        this.seek('a', 1);
        this.#check();
        return;
      case 'soFar':
        this.#change({ soFar: said.soFar });
        return;
      case 'stuck':
        this.#change({ stuck: { tick: said.tick, why: said.why }, playing: false });
        return;
      case 'checking':
        this.#change({ check: { is: 'running', share: said.share } });
        return;
      case 'checked':
        this.#checker?.terminate();
        this.#checker = null;
        this.#change({ check: { is: 'done', verdict: said.verdict } });
        return;
      case 'view':
        this.#show(said.side, said.view);
        return;
      case 'trace':
        this.#traces.get(said.id)?.(said.trace);
        this.#traces.delete(said.id);
    }
  }

  #show(side: Side, view: LineView): void {
    this.sides[side].set(liveOf(view, this.sides[side].get(), this.state.get()));
    this.#asked[side] = null;
    const wished = this.#wished[side];
    this.#wished[side] = null;
    if (wished !== null) this.#ask(side, wished);
  }

  #ask(side: Side, tick: number): void {
    if (this.#asked[side] !== null) {
      this.#wished[side] = tick;
      return;
    }
    this.#ids += 1;
    this.#asked[side] = this.#ids;
    this.#worker?.postMessage({ do: 'seek', side, tick, id: this.#ids } satisfies ToWorker);
  }

  /** Moves a side to a tick; the first tick is the opening of the shift. */
  seek(side: Side, tick: number): void {
    const state = this.state.get();
    const bound = Math.round(Math.min(lastTickOf(state), Math.max(1, tick)));
    if (side === 'a') this.#position = bound;
    if (state.at[side] !== bound) this.#change({ at: { ...state.at, [side]: bound } });
    // Without charts to run again there is no screen to draw; entries and readings follow the moment all the same.
    if (state.opened?.declined === null) this.#ask(side, bound);
  }

  setSpeed(speed: ReplaySpeed): void {
    this.#change({ speed });
  }

  play(playing: boolean): void {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
    const state = this.state.get();
    if (!playing || state.opened === null) {
      this.#change({ playing: false });
      return;
    }
    // At the end, playing begins again at the beginning.
    if (state.at.a >= lastTickOf(state)) this.seek('a', 1);
    this.#change({ playing: true });
    let lastMs = performance.now();
    this.#timer = setInterval(() => {
      const nowMs = performance.now();
      const passedS = Math.min(nowMs - lastMs, LONGEST_FRAME_MS) / 1000;
      lastMs = nowMs;
      const { speed } = this.state.get();
      const reached = this.#reached();
      // The worker has not got that far yet: wait for it instead of leaping over what it has not shown.
      const position = Math.min(this.#position + passedS * speed * TICKS_PER_S, reached);
      this.seek('a', position);
      this.#position = position;
      if (position >= lastTickOf(this.state.get())) this.play(false);
    }, PLAY_EVERY_MS);
  }

  #reached(): number {
    const { opened, soFar, stuck } = this.state.get();
    if (stuck !== null) return stuck.tick;
    if (opened === null) return 1;
    return opened.declined !== null || soFar === null ? opened.lastTick : Math.max(soFar.tick, 1);
  }

  setHindsight(hindsight: boolean): void {
    this.#change({ hindsight });
  }

  setSeenBy(seenBy: ReplayState['seenBy']): void {
    this.#change({ seenBy });
    for (const side of ['a', 'b'] as const) {
      const live = this.sides[side].get();
      if (live.view !== null) this.sides[side].set(liveOf(live.view, live, this.state.get()));
    }
  }

  trace(asked: TraceAsked): Promise<Trace> {
    this.#ids += 1;
    const id = this.#ids;
    return new Promise((resolve) => {
      this.#traces.set(id, resolve);
      this.#worker?.postMessage({ do: 'trace', id, ...asked } satisfies ToWorker);
    });
  }
}
