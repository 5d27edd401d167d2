/** Who may begin, steer, work and watch a training session, in words when not. */
import type { CommandName } from '../../machines/line/commands.ts';
import type { SessionAsk, SessionTile } from '../../machines/live/training.ts';
import type { Person, Role } from '../../machines/scenario/people.schema.ts';

/** What these questions need to know of a session. */
export type Whose = {
  readonly trainee: { readonly id: string; readonly name: string };
  readonly by: { readonly id: string; readonly name: string };
};

const TRAINERS: readonly Role[] = ['trainer', 'supervisor'];
const LEARNERS: readonly Role[] = ['trainee', 'operator', 'supervisor', 'trainer'];
const WATCHERS: readonly Role[] = ['trainer', 'supervisor', 'auditor'];

const a = (role: Role): string => `${/^[aeiou]/.test(role) ? 'an' : 'a'} ${role}`;

export const isTrainer = (person: Person): boolean => TRAINERS.includes(person.role);
export const isAlone = ({ trainee, by }: Whose): boolean => trainee.id === by.id;

/** Against beginning a drill for that person, or null. */
export const whyNotStart = (person: Person, trainee: Person): string | null => {
  if (!LEARNERS.includes(trainee.role))
    return `${trainee.name} is ${a(trainee.role)} and does not work the line; a drill is for: ${LEARNERS.join(', ')}.`;
  if (isTrainer(person)) return null;
  if (person.id !== trainee.id)
    return `${person.name} is ${a(person.role)}; drills for others are begun by: ${TRAINERS.join(', ')}.`;
  return null;
};

/** Against seeing the line of that session, its debrief or its history, or null. */
export const whyNotWatch = (person: Person, { trainee }: Whose): string | null => {
  if (person.id === trainee.id || WATCHERS.includes(person.role)) return null;
  return `This is the drill of ${trainee.name}: it is seen by that person and by: ${WATCHERS.join(', ')}.`;
};

/** A trainee alone may stop the clock and set its pace, but not put in faults or go back: that is the trainer's. */
const TRAINEE: readonly SessionAsk['do'][] = ['reply', 'call', 'hint', 'finish'];
const ALONE: readonly SessionAsk['do'][] = [...TRAINEE, 'freeze', 'goOn', 'speed'];

export const whyNotSteer = (person: Person, whose: Whose, what: SessionAsk['do']): string | null => {
  const isTrainees = what === 'reply' || what === 'call' || what === 'hint';
  if (isTrainees && person.id !== whose.trainee.id)
    return `Answers, calls and hints are for ${whose.trainee.name}, whose drill it is.`;
  if (isTrainer(person)) return null;
  if (person.id === whose.trainee.id) {
    if ((isAlone(whose) ? ALONE : TRAINEE).includes(what)) return null;
    return isAlone(whose)
      ? 'In practice alone you can freeze, set the speed and finish; the rest needs a trainer. Going back is offered in the debrief.'
      : `${whose.by.name} leads this drill: ask there to freeze it, change its pace or go back.`;
  }
  return `${person.name} is ${a(person.role)}; a drill is led by: ${TRAINERS.join(', ')}.`;
};

/** Commands that would take the drill out of the trainee's hands. */
const NOT_IN_A_DRILL: { readonly [K in CommandName]?: string } = {
  standIn: 'In a drill you work the line yourself: there is no stand-in.',
  endShift: 'A drill is not ended as a shift is: press Finish in the band at the top.',
  injectFault: 'Faults are put in from the trainer’s seat, so that they are kept with the drill.',
  clearFault: 'Faults are taken away from the trainer’s seat, so that it is kept with the drill.',
};
/** The seat is the trainee's: a trainer may stand by as second person, not sit down there. */
const THE_SEAT: readonly CommandName[] = ['takeControls', 'askForControls', 'handOver', 'releaseControls'];

/** Against giving the line of that session this command, or null. */
export const whyNotCommand = (person: Person, whose: Whose, command: CommandName): string | null => {
  const never = NOT_IN_A_DRILL[command];
  if (never !== undefined) return never;
  if (person.id === whose.trainee.id) return null;
  if (!isTrainer(person)) return `This is the drill of ${whose.trainee.name}: you look on here.`;
  return THE_SEAT.includes(command)
    ? `The controls are ${whose.trainee.name}’s in this drill. Freeze it, go back or send a message from the trainer’s seat.`
    : null;
};

/** A tile as that person may see it: who works the drill is not told the score while it is under way. */
export const tileFor = (person: Person, tile: SessionTile): SessionTile =>
  person.id === tile.trainee.id && tile.state !== 'over' ? { ...tile, score: null, unsafe: 0 } : tile;
