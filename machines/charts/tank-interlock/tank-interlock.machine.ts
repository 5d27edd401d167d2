/** The interlock of one binder tank: regions that each follow one signal, from the unsafe side on. */
import { setup } from 'xstate';
import type { StateMeta } from '../signals.ts';
import type { TankId } from '../tank-heater/tank-heater.events.ts';
import { TANK_CAUSES, TANK_REGIONS, type TankRegion } from './tank-interlock.causes.ts';
import { type TankInterlockEvent, tankInterlockSignals } from './tank-interlock.events.ts';

const REGION_NAMES = Object.keys(TANK_REGIONS) as readonly TankRegion[];

const regionOf = (tank: TankId, region: TankRegion) => {
  const { signal, safeOn } = tankInterlockSignals(tank)[region];
  const [unsafe, safe] = TANK_REGIONS[region];
  const words = TANK_CAUSES.find((one) => one.tank === tank && one.region === region)?.words;
  return {
    initial: unsafe,
    states: {
      [unsafe]: {
        meta: { title: words?.unmet ?? unsafe, instruction: words?.clear ?? '' },
        on: { [`${safeOn ? 'on' : 'off'}.${signal}`]: safe },
      },
      [safe]: {
        meta: { title: words?.met ?? safe },
        on: { [`${safeOn ? 'off' : 'on'}.${signal}`]: unsafe },
      },
    },
  };
};

const tankInterlockOf = (tank: TankId) =>
  setup({ types: {} as { events: TankInterlockEvent; meta: StateMeta } }).createMachine({
    id: `${tank}TankInterlock`,
    type: 'parallel',
    states: Object.fromEntries(REGION_NAMES.map((region) => [region, regionOf(tank, region)])),
  });

export const tankInterlockMachines = {
  emulsion: tankInterlockOf('emulsion'),
  cutback: tankInterlockOf('cutback'),
};
