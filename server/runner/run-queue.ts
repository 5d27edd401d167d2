/** Requests to the clockwork rather than to the line, waiting for the next turn. */
import type { Answer, RunCommand } from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { QUEUE_LIMIT, type RunWaiting, refused } from './command-queue.ts';

export class RunQueue {
  #waiting: RunWaiting[] = [];

  give(command: RunCommand, by: Person, onWaiting: () => void): Promise<Answer> {
    if (this.#waiting.length >= QUEUE_LIMIT)
      return Promise.resolve(refused('Too many requests are waiting: try again in a moment.'));
    return new Promise((answer) => {
      this.#waiting.push({ command, by, answer });
      onWaiting();
    });
  }

  takeAll(): readonly RunWaiting[] {
    return this.#waiting.splice(0);
  }

  refuseAll(why: string): void {
    for (const { answer } of this.takeAll()) answer(refused(why));
  }
}
