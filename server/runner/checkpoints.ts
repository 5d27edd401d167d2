/** Saves the world now and then, so that a restart has at most a minute of plant time to run again. */
import type { ChainEnd } from '../../machines/record/chain.ts';
import type { Store } from '../store/store.ts';
import type { AnyWorld, Clock, LineEngine } from './line-engine.ts';

const PLANT_MS = 60_000;
const REAL_MS = 10_000;
/** At sixty times real time a minute is over every second: not oftener than this. */
const LEAST_REAL_MS = 2_000;

export class Checkpoints<W extends AnyWorld> {
  #engine: LineEngine<W>;
  #store: Store;
  #clock: Clock;
  #plantMs: number;
  #realMs: number;

  constructor(engine: LineEngine<W>, store: Store, clock: Clock, world: W) {
    this.#engine = engine;
    this.#store = store;
    this.#clock = clock;
    this.#plantMs = world.atMs;
    this.#realMs = clock.monoMs();
  }

  /** Counts from a world that is in the record already, or needs nothing there. */
  restart(world: W): void {
    this.#plantMs = world.atMs;
    this.#realMs = this.#clock.monoMs();
  }

  isDue(world: W): boolean {
    const plantMs = world.atMs - this.#plantMs;
    const realMs = this.#clock.monoMs() - this.#realMs;
    return plantMs > 0 && realMs >= LEAST_REAL_MS && (plantMs >= PLANT_MS || realMs >= REAL_MS);
  }

  /** Everything up to the world's tick must be in the record, which ends at `end`. */
  async save(world: W, end: ChainEnd): Promise<void> {
    this.restart(world);
    const { shift } = await this.#store.tail();
    const saved = this.#engine.saveWorld(world);
    await this.#store.saveCheckpoint({ shift, seq: end.seq, hash: end.hash, tick: world.tick, world: saved });
  }
}
