/** An alarm by its words and priority; one this program does not know keeps its name. */
import { ALARMS } from '../line/alarms.ts';
import { capital, plainWords } from './words.ts';

const DEFINITIONS = new Map(ALARMS.map((alarm) => [alarm.id, alarm]));

export const PRIORITIES = ['high', 'medium', 'low', 'unknown'] as const;

export const alarmWords = (alarm: string): string =>
  DEFINITIONS.get(alarm)?.text ?? capital(plainWords(alarm));

export const alarmPriority = (alarm: string): (typeof PRIORITIES)[number] =>
  DEFINITIONS.get(alarm)?.priority ?? 'unknown';
