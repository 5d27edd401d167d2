/** What has been asked of a drill and waits for its next tick; each command id is carried out once. */
import type { Intervention } from '../../machines/drills/run.types.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import { QUEUE_LIMIT, refused, type Waiting } from '../runner/command-queue.ts';

export type ActWaiting = { readonly act: Intervention; readonly answer: (answer: Answer) => void };

const ANSWERS_REMEMBERED = 2000;

export class Inbox {
  #commands: Waiting[] = [];
  #acts: ActWaiting[] = [];
  #answers = new Map<string, { readonly name: string; readonly answer: Promise<Answer> }>();

  get length(): number {
    return this.#commands.length + this.#acts.length;
  }

  /** The answer to an id that was used before, or null. */
  known({ id, command }: CommandEnvelope): Promise<Answer> | null {
    const known = this.#answers.get(id);
    if (known === undefined) return null;
    if (known.name === command.do) return known.answer;
    const words = `This id was used before, for ${known.name}: give every command an id of its own.`;
    return Promise.resolve(refused(words));
  }

  /** An emergency stop must not stand behind a crowd. */
  hasRoomFor(command: string): boolean {
    return this.#commands.length < (command === 'emergencyStop' ? 2 * QUEUE_LIMIT : QUEUE_LIMIT);
  }

  command(envelope: CommandEnvelope): Promise<Answer> {
    const answer = new Promise<Answer>((settle) => this.#commands.push({ envelope, answer: settle }));
    this.#answers.set(envelope.id, { name: envelope.command.do, answer });
    if (this.#answers.size > ANSWERS_REMEMBERED)
      this.#answers.delete(this.#answers.keys().next().value as string);
    return answer;
  }

  act(act: Intervention): Promise<Answer> {
    if (this.#acts.length >= QUEUE_LIMIT)
      return Promise.resolve(refused('Too much is waiting: try again in a moment.'));
    return new Promise((answer) => this.#acts.push({ act, answer }));
  }

  /** All commands, and one act: so a reason not to take it is its own. */
  take(): { readonly commands: readonly Waiting[]; readonly acts: readonly ActWaiting[] } {
    return { commands: this.#commands.splice(0), acts: this.#acts.splice(0, 1) };
  }

  refuseAll(why: string): void {
    for (const { answer } of [...this.#commands.splice(0), ...this.#acts.splice(0)]) answer(refused(why));
  }
}
