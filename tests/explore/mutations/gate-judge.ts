/** What may not be let through in a situation, judged from the states themselves and from no function the gate uses. */
import type { ChartValue } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../../machines/field/outputs.ts';
import type { Situation } from './gate-hunt.ts';

const FEEDS = [
  'bin1Gate',
  'bin2Gate',
  'bin3Gate',
  'bin4Gate',
  'hopperTo',
  'holdingGate',
  'emulsionFeed',
  'cutbackFeed',
  'bucketValve',
  'waterValve',
  'antiStripPump',
  'oilBurner',
  'burnerPilot',
  'burnerMain',
] as const;
const MOVES = ['drumTurn', 'drumDischarge', 'pugMill', 'mixerGate', 'belt'] as const;

const anyOf = (keys: readonly (keyof Outputs)[], out: Outputs): boolean =>
  keys.some((key) => out[key] !== AT_REST[key]);

type Facts = {
  readonly value: { readonly [region: string]: ChartValue };
  readonly out: Outputs;
  readonly flame: boolean;
  readonly feed: boolean;
  /** Solvent-bearing binder may run through the open binder valve. */
  readonly binder: boolean;
  readonly latched: string | null;
};

const RULES: readonly (readonly [id: string, broken: (facts: Facts) => boolean])[] = [
  ['NR-01', ({ flame, binder, feed }) => flame && (binder || feed)],
  ['NR-02', ({ value, flame }) => flame && (value.bucket !== 'noCutback' || value.mixer !== 'noCutback')],
  ['NR-03', ({ value, binder, feed }) => (binder || feed) && value.dryer !== 'purged'],
  [
    'NR-04',
    ({ value, binder }) =>
      binder &&
      (value.extraction !== 'proved' ||
        value.vapour !== 'low' ||
        value.detector !== 'healthy' ||
        value.aggregate !== 'withinLimit' ||
        value.binder !== 'inWindow'),
  ],
  ['NR-05', ({ latched, out }) => latched !== null && (anyOf(FEEDS, out) || !out.hoodFan)],
  [
    'NR-18',
    ({ value, latched, out }) =>
      (value.emergencyStop !== 'released' || latched === 'FT-07') && (anyOf(MOVES, out) || anyOf(FEEDS, out)),
  ],
  ['NR-19', ({ value, out }) => out.burnerPilot && value.valve !== 'shut'],
  [
    'NR-30',
    ({ value, out, flame, binder, feed }) =>
      ((binder || feed) &&
        (value.binderLimit !== 'below' || value.hotWork !== 'closed' || value.cutbackTank !== 'confirmed')) ||
      ((binder || flame) && value.calibration !== 'in') ||
      (out.emulsionFeed !== 'shut' && value.emulsionTank !== 'confirmed'),
  ],
  [
    'NR-31',
    ({ value, flame, feed }) =>
      (flame && (value.vapour !== 'low' || value.extraction !== 'proved' || value.detector !== 'healthy')) ||
      (feed && value.valve !== 'shut' && value.valve !== 'opening'),
  ],
  [
    'NR-32',
    ({ value, latched, out }) =>
      (value.power !== 'healthy' || latched === 'FT-11') && (anyOf(MOVES, out) || anyOf(FEEDS, out)),
  ],
  ['NR-38', ({ value, flame, binder, feed }) => value.trip === 'starting' && (flame || binder || feed)],
  ['NR-39', ({ value, out }) => value.mixer !== 'noCutback' && !out.hoodFan],
];

export const TANK_SAFE: { readonly [region: string]: string } = {
  cover: 'covered',
  limit: 'below',
  flow: 'proved',
  delivery: 'none',
  dispensing: 'none',
  vent: 'low',
  contents: 'confirmed',
  water: 'none',
  hotWork: 'closed',
};

/** IDs of the rules these outputs break in this situation, the gravest first. */
export const breachesOf = ({ interlock, tanks, burner }: Situation, out: Outputs): readonly string[] => {
  const flame = out.burnerPilot || out.burnerMain !== 'shut';
  const feed = out.cutbackFeed !== 'shut';
  const binder = out.bucketValve && (interlock.bucket !== 'noCutback' || feed);
  const trip = interlock.trip;
  const latched = typeof trip === 'object' ? String(trip.tripped) : null;
  const facts: Facts = { value: interlock, out, flame, feed, binder, latched };
  const broken = RULES.filter(([, isBroken]) => isBroken(facts)).map(([id]): string => id);
  if (flame && burner !== 'pilotTrial') broken.push('NR-06');
  for (const tank of ['emulsion', 'cutback'] as const) {
    const regions = tanks[tank] as { readonly [region: string]: string };
    if (out[`${tank}Coil`] && Object.keys(TANK_SAFE).some((region) => regions[region] !== TANK_SAFE[region]))
      broken.push('NR-33');
    if (out.oilBurner && (regions.flow !== 'proved' || regions.vent !== 'low')) broken.push('NR-34');
  }
  return broken;
};
