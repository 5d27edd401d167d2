/** The word for the state an alarm is in. */
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';

export type AlarmState =
  | 'normal'
  | 'unacknowledged'
  | 'acknowledged'
  | 'returned unacknowledged'
  | 'shelved'
  | 'suppressed by design'
  | 'out of service';

const WORDS: { readonly [state: string]: AlarmState } = {
  normal: 'normal',
  unacknowledged: 'unacknowledged',
  acknowledged: 'acknowledged',
  returnedUnacknowledged: 'returned unacknowledged',
  suppressed: 'suppressed by design',
  shelved: 'shelved',
  outOfService: 'out of service',
};

/** ISA-18.2 state of an alarm, in words. Throws for a value that is no alarm's. */
export const alarmState = (value: ChartValue): AlarmState => {
  const handling = typeof value === 'string' ? value : value.handling;
  const leaf = typeof handling === 'object' ? handling.inService : handling;
  const word = typeof leaf === 'string' ? WORDS[leaf] : undefined;
  if (word === undefined) throw new Error(`no alarm state: ${JSON.stringify(value)}`);
  return word;
};

/** The condition behind the alarm stands now, whatever is shown. */
export const isConditionOn = (value: ChartValue): boolean =>
  typeof value !== 'string' && value.condition === 'on';
