/** What the burner chart asks of the dryer in each state, and what may be said of it, as pure functions of its state. */
import type { Outputs } from '../../field/outputs.ts';
import type { ChartValue } from '../flame-interlock/flame-interlock.guards.ts';

export type BurnerDemands = Pick<Outputs, 'drumFan' | 'burnerPilot' | 'burnerMain'>;

const ask = (drumFan: boolean, burnerPilot: boolean, burnerMain: Outputs['burnerMain']): BurnerDemands => ({
  drumFan,
  burnerPilot,
  burnerMain,
});

const NOTHING = ask(false, false, 'shut');
const AIR = ask(true, false, 'shut');
const PILOT = ask(true, true, 'shut');
const PILOT_AND_LOW = ask(true, true, 'low');
const LOW = ask(true, false, 'low');
const HIGH = ask(true, false, 'high');

const topState = (value: ChartValue): string => {
  if (typeof value === 'string') return value;
  for (const key in value) return key;
  return '';
};

const childOf = (value: ChartValue, parent: string): ChartValue | undefined =>
  typeof value === 'string' ? undefined : value[parent];

/** Fan, pilot and main the burner asks for; a state it does not know asks for nothing. */
export const burnerDemands = (value: ChartValue): BurnerDemands => {
  switch (topState(value)) {
    case 'purging':
    case 'postPurging':
    case 'lockedOut':
      return AIR;
    case 'pilotTrial':
      return PILOT;
    case 'mainTrial':
      return PILOT_AND_LOW;
    case 'running': {
      const running = childOf(value, 'running');
      return running !== undefined && typeof running === 'object' && running.fire === 'high' ? HIGH : LOW;
    }
    default:
      return NOTHING;
  }
};

/** In these states, and no others, may fuel be admitted to the dryer. */
export const burnerMayAdmitFuel = (value: ChartValue): boolean => {
  const top = topState(value);
  return top === 'pilotTrial' || top === 'mainTrial' || top === 'running';
};

/** The line holds its count of purge volumes at zero in these states, so that every purge is counted afresh. */
export const purgeCountHeld = (value: ChartValue): boolean => {
  if (burnerMayAdmitFuel(value)) return true;
  const step = childOf(value, 'purging') ?? childOf(value, 'postPurging');
  return (
    step === 'startingFan' || step === 'restartingCount' || step === 'closingFuel' || step === 'flameDying'
  );
};

/** The signal burnerRunning: on main flame, main trial over. */
export const burnerIsRunning = (value: ChartValue): boolean => topState(value) === 'running';
/** The signal burnerOff: off, with the drum purged if it had fired. */
export const burnerIsOff = (value: ChartValue): boolean => value === 'off';
export const burnerIsLockedOut = (value: ChartValue): boolean => topState(value) === 'lockedOut';
