/** Commands on their way into the line: each id is carried out once, however often it is sent. */
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Answer, RunCommand } from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import type { Store } from '../store/store.ts';

export type Waiting = { readonly envelope: CommandEnvelope; readonly answer: (answer: Answer) => void };

/** A request to the clockwork rather than to the line. */
export type RunWaiting = {
  readonly command: RunCommand;
  readonly by: Person;
  readonly answer: (answer: Answer) => void;
};

export const QUEUE_LIMIT = 100;

export const refused = (...because: string[]): Answer => ({ ok: false, because });

const otherCommand = (command: string): Answer =>
  refused(`This id was used before, for ${command}: give every command an id of its own.`);

export class CommandQueue {
  #store: Store;
  /** Why nothing can be carried out just now, or null. */
  #whyNotNow: (command: string) => string | null;
  #onWaiting: () => void;
  #waiting: Waiting[] = [];
  #inFlight = new Map<string, { readonly command: string; readonly answer: Promise<Answer> }>();

  constructor(store: Store, whyNotNow: (command: string) => string | null, onWaiting: () => void) {
    this.#store = store;
    this.#whyNotNow = whyNotNow;
    this.#onWaiting = onWaiting;
  }

  get length(): number {
    return this.#waiting.length;
  }

  /** Answers from the record when the id is known, else queues the command for the next tick. */
  give(envelope: CommandEnvelope): Promise<Answer> {
    const name = envelope.command.do;
    const known = this.#inFlight.get(envelope.id);
    if (known !== undefined)
      return known.command === name ? known.answer : Promise.resolve(otherCommand(known.command));
    const answer = this.#accept(envelope).finally(() => this.#inFlight.delete(envelope.id));
    this.#inFlight.set(envelope.id, { command: name, answer });
    return answer;
  }

  async #accept(envelope: CommandEnvelope): Promise<Answer> {
    const known = await this.#store.answerTo(envelope.id);
    if (known !== null)
      return known.command === envelope.command.do ? known.answer : otherCommand(known.command);
    const no = this.#whyNotNow(envelope.command.do);
    if (no !== null) return refused(no);
    // An emergency stop must not stand behind a crowd.
    const room = envelope.command.do === 'emergencyStop' ? 2 * QUEUE_LIMIT : QUEUE_LIMIT;
    if (this.#waiting.length >= room) return refused('Too many commands are waiting: try again in a moment.');
    return new Promise((answer) => {
      this.#waiting.push({ envelope, answer });
      this.#onWaiting();
    });
  }

  takeAll(): Waiting[] {
    return this.#waiting.splice(0);
  }

  refuseAll(why: string): void {
    for (const { answer } of this.takeAll()) answer(refused(why));
  }
}
