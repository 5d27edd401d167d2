/** Words of training that stand on more than one page. */
import { EQUIPMENT_FAULTS, type EquipmentFault } from '../../machines/field/outputs.ts';
import { TAGS, type Tag } from '../../machines/field/tags.ts';
import type { SessionState } from '../../machines/live/training.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';

export const TRAINERS: readonly Role[] = ['trainer', 'supervisor'];
export const LEARNERS: readonly Role[] = ['trainee', 'operator', 'supervisor', 'trainer'];

export const TRAINING_ONLY =
  'Drills run on a simulated plant, each on a line of its own. They do not replace licensed instruction, and what is ' +
  'passed here gives nobody the right to run a burner, a tank heater or a plant.';

export const CUTBACK_CAUTIONS: readonly string[] = [
  'In this drill there is cutback: a binder with solvent, used above its flash point. At a real plant its vapour burns.',
  'No flame, pilot, spark or smoking near mixer, tank and fresh mix; the dryer is out and purged before binder is drawn.',
  'Extraction runs and the vapour detector is healthy before solvent-bearing binder is moved.',
  'On a real plant the flame interlock is hardwired and certified. This program is neither, and no drill makes it so.',
  'If something here differs from your plant’s rules or the binder supplier’s sheet, those come first.',
];

export const LEVELS: readonly string[] = ['', 'first steps', 'easy', 'middling', 'demanding', 'hard'];

export const STATE_WORDS: { readonly [K in SessionState]: string } = {
  running: 'running',
  frozen: 'frozen',
  over: 'over',
};

export const EQUIPMENT_WORDS: { readonly [K in EquipmentFault]?: string } = {
  hoodFanStopped: 'Hood fan stopped',
  drumFanStopped: 'Dryer fan stopped',
  binderValveLeaking: 'Binder valve leaking',
  fuelValveLeaking: 'Fuel valve leaking',
  oilPumpStopped: 'Thermal-oil pump stopped',
  flameWillNotLight: 'Flame will not light',
  powerDip: 'Supply lost',
  wrongBinderInTruck: 'Next truck carries the other binder',
};

const spaced = (name: string): string => {
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
};

export const isEquipment = (name: string): name is EquipmentFault =>
  (EQUIPMENT_FAULTS as readonly string[]).includes(name);
export const equipmentWords = (name: EquipmentFault): string => EQUIPMENT_WORDS[name] ?? spaced(name);
export const targetWords = (target: string): string =>
  isEquipment(target) ? equipmentWords(target) : target in TAGS ? TAGS[target as Tag].label : spaced(target);

export const FAULT_WORDS: { readonly [fault: string]: string } = {
  on: 'on',
  stuck: 'stuck at its reading',
  dead: 'no signal',
  noisy: 'noisy',
  drift: 'drifting',
  span: 'off by a share of what it reads',
};

export const capital = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/** 754 → "12:34" */
export const clockOfS = (seconds: number): string => {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
};

/** "2026-11-25T14:03:12Z" → "2026-11-25 14:03" in the clock of this computer. */
export const whenOf = (wall: string): string => {
  const at = new Date(wall);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
};
