/** What was done in a drill, in words. */
import { TAGS, type Tag } from '../field/tags.ts';
import { ALARMS } from '../line/alarms.ts';
import type { Command } from '../line/commands.ts';
import type { Called } from './drill.schema.ts';
import type { IncidentState } from './run.types.ts';

/** `lightBurner` as "light burner"; what it was given with stands behind. */
export const commandInWords = (command: Command): string => {
  const name = command.do.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  const words = `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
  const given = Object.entries(command).flatMap(([key, value]) => {
    if (key === 'do') return [];
    if (key === 'alarm') return [ALARMS.find((one) => one.id === value)?.text ?? String(value)];
    if (key === 'on') return [value === true ? 'on' : 'off'];
    if (key === 'batches') return value === 1 ? ['one batch'] : [`${String(value)} batches`];
    return typeof value === 'object' ? [] : [`${key} ${String(value)}`];
  });
  return given.length === 0 ? words : `${words}: ${given.join(', ')}`;
};

export const calledInWords = (who: Called): string => `Called the ${who}`;

const FAULTS = {
  stuck: 'stuck',
  dead: 'dead',
  noisy: 'noisy',
  drift: 'drifting',
  span: 'off by a share of what it reads',
} as const;

const spaced = (name: string): string => {
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
};

/** "Vapour at hood: drifting, −24 % LEL an hour" */
export const incidentInWords = ({ happening, by }: IncidentState): string => {
  if (happening.what === 'message') return `Message from ${happening.from}`;
  if (happening.what === 'equipment') return spaced(happening.equipment);
  const { label, unit } = TAGS[happening.tag as Tag];
  const signed = `${by < 0 ? '−' : '+'}${Math.abs(by)}`;
  const much =
    happening.fault === 'drift'
      ? `, ${signed}${unit === '' ? '' : ` ${unit}`} an hour`
      : happening.fault === 'span'
        ? `, ${signed} %`
        : '';
  return `${label}: ${FAULTS[happening.fault]}${much}`;
};

/** Minutes and seconds since the drill began: "12:05". */
export const clock = (ticks: number): string => {
  const s = Math.max(0, Math.round(ticks / 10));
  return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
};
