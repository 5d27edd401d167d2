/**
 * Hunts a broken gate: states of the interlocks by how few regions stray from their safe side, fewest first, so that
 * a breach is found soon and told simply. Everything that matters is asked of the gate in every combination.
 */
import type { ChartValue } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS, type Region } from '../../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import {
  TANK_REGIONS,
  type TankRegion,
} from '../../../machines/charts/tank-interlock/tank-interlock.causes.ts';
import { AT_REST, type Outputs } from '../../../machines/field/outputs.ts';
import { type Gated, gate, type TankValues } from '../../../machines/line/gate.ts';
import { breachesOf } from './gate-judge.ts';
import type { Kill } from './mutation.ts';

export type Gate = (wanted: Outputs, interlock: ChartValue, burner: ChartValue, tanks: TankValues) => Gated;

/** Asked for: the four that matter in every combination, emulsion and heat, with all else that feeds or moves. */
const EVERYTHING: Outputs = {
  ...AT_REST,
  bin1Gate: 'full',
  bin2Gate: 'full',
  bin3Gate: 'full',
  bin4Gate: 'full',
  hopperTo: 'dryer',
  holdingGate: 'full',
  emulsionFeed: 'full',
  waterValve: true,
  antiStripPump: true,
  oilPump: true,
  oilBurner: true,
  emulsionCoil: true,
  cutbackCoil: true,
  drumTurn: true,
  drumDischarge: true,
  pugMill: true,
  mixerGate: true,
  belt: true,
  hoodFan: false,
};
const SIXTEEN = Array.from({ length: 16 }, (_, bits) => bits);
const asked = (base: Outputs, bits: number): Outputs => ({
  ...base,
  cutbackFeed: bits & 1 ? 'full' : 'shut',
  bucketValve: (bits & 2) !== 0,
  burnerPilot: (bits & 4) !== 0,
  burnerMain: bits & 8 ? 'low' : 'shut',
});
export const WANTS: readonly Outputs[] = [
  ...SIXTEEN.map((bits) => asked(EVERYTHING, bits)),
  // With nothing else asked for: the gate takes a short way when nothing risky is.
  ...SIXTEEN.map((bits) => asked(AT_REST, bits)),
  { ...AT_REST, hoodFan: false },
  { ...AT_REST, drumTurn: true, pugMill: true },
  { ...AT_REST, emulsionFeed: 'full' },
  { ...AT_REST, oilBurner: true },
  { ...AT_REST, emulsionCoil: true },
  { ...AT_REST, cutbackCoil: true },
];

/** States of the trip that differ to the gate. */
export const TRIP_VALUES: readonly ChartValue[] = [
  'watching',
  'starting',
  { tripped: 'FT-02' },
  { tripped: 'FT-07' },
  { tripped: 'FT-11' },
];
export const BURNERS: readonly ChartValue[] = ['pilotTrial', 'off'];

type Stray = { readonly region: string; readonly state: string };
const FLAME_REGIONS = (Object.keys(REGIONS) as Region[]).filter((region) => region !== 'trip');
const TANK_NAMES = Object.keys(TANK_REGIONS) as readonly TankRegion[];

export const SAFE: { readonly [region: string]: ChartValue } = Object.fromEntries(
  FLAME_REGIONS.map((region) => [region, REGIONS[region].at(-1) as string]),
);
const TANK_SAFE_NOW = (): { [region: string]: string } =>
  Object.fromEntries(TANK_NAMES.map((region) => [region, TANK_REGIONS[region][1]]));

/** Every single way off the safe side: of the flame interlock, then of the two tank interlocks. */
const STRAYS: readonly Stray[] = [
  ...FLAME_REGIONS.flatMap((region) =>
    REGIONS[region].slice(0, -1).map((state): Stray => ({ region, state })),
  ),
  ...TANK_NAMES.flatMap((region): Stray[] =>
    (['emulsion', 'cutback'] as const).map((tank) => ({
      region: `${tank}:${region}`,
      state: TANK_REGIONS[region][0],
    })),
  ),
];

/** None, one and two of them at once. */
const FEW: readonly (readonly Stray[])[] = [
  [],
  ...STRAYS.map((one) => [one]),
  ...STRAYS.flatMap((one, at) =>
    STRAYS.slice(at + 1)
      .filter((other) => other.region !== one.region)
      .map((other) => [one, other]),
  ),
];

export type Situation = {
  readonly interlock: { readonly [region: string]: ChartValue };
  readonly tanks: TankValues;
  readonly burner: ChartValue;
};

const situationOf = (strays: readonly Stray[], trip: ChartValue, burner: ChartValue): Situation => {
  const interlock: { [region: string]: ChartValue } = { ...SAFE, trip };
  // Fresh objects: the guards remember what they made of a tank's state.
  const tanks = { emulsion: TANK_SAFE_NOW(), cutback: TANK_SAFE_NOW() };
  for (const { region, state } of strays) {
    const [tank, name] = region.split(':');
    if (name === undefined) interlock[region] = state;
    else tanks[tank as 'emulsion' | 'cutback'][name] = state;
  }
  return { interlock, tanks, burner };
};

const open = (out: Outputs): string =>
  Object.entries(out)
    .filter(([key, value]) => value !== AT_REST[key as keyof Outputs])
    .map(([key, value]) => (value === true ? key : `${key} ${value}`))
    .join(', ') || 'nothing';

const strayWords = (strays: readonly Stray[]): string =>
  strays.map(({ region, state }) => `${region} ${state}`).join(', ') || 'all as it should be';

/** The first breach of a rule by this gate, nearest to the safe state; null when none is within two strays. */
export const huntGate = (broken: Gate): Kill | null => {
  for (const strays of FEW)
    for (const trip of TRIP_VALUES)
      for (const burner of BURNERS) {
        const situation = situationOf(strays, trip, burner);
        for (const wanted of WANTS) {
          const { outputs } = broken(wanted, situation.interlock, burner, situation.tanks);
          const [rule] = breachesOf(situation, outputs);
          if (rule === undefined) continue;
          const told = typeof trip === 'string' ? trip : `tripped ${trip.tripped}`;
          return {
            rule,
            story: `${rule}: with ${strayWords(strays)}, interlock ${told}, burner ${burner}, the gate lets through: ${open(outputs)}`,
          };
        }
      }
  return null;
};

/** Says where this gate lets something else through than the true one; null when it never does within two strays. */
export const gateDiffers = (broken: Gate): string | null => {
  for (const strays of FEW)
    for (const trip of TRIP_VALUES)
      for (const burner of BURNERS)
        for (const wanted of WANTS) {
          const one = situationOf(strays, trip, burner);
          const two = situationOf(strays, trip, burner);
          const let1 = broken(wanted, one.interlock, burner, one.tanks).outputs;
          const let2 = gate(wanted, two.interlock, burner, two.tanks).outputs;
          if (JSON.stringify(let1) !== JSON.stringify(let2))
            return `lets through ${open(let1)} instead of ${open(let2)} with ${strayWords(strays)}`;
        }
  return null;
};

/** What the gate lets through in the safe state, everything asked for: a hunt that sees nothing open hunts in vain. */
export const letThroughWhenSafe = (wanted: Outputs): Outputs => {
  const { interlock, tanks } = situationOf([], 'watching', 'pilotTrial');
  return gate(wanted, interlock, 'pilotTrial', tanks).outputs;
};
