/** What the gate lets through in every state of the interlock, whatever is asked of it. */

import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import {
  type ChartValue,
  standingCauses,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { REGIONS } from '../../machines/charts/flame-interlock/flame-interlock.regions.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { GATE_RULES, type GateRules, gate } from '../../machines/line/gate.ts';
import { FREES } from './free-regions.ts';
import { BASES, FREE, STARTING, stateValueOf, TRIP_STATES, TRIPPED, WATCHING } from './interlock-space.ts';
import { TANKS_SAFE } from './tank-models.ts';

/** Everything that burns, feeds or opens, asked for in every combination of the four that matter, hood fan off. */
const REST_OF_IT: Outputs = {
  ...AT_REST,
  bin1Gate: 'full',
  hopperTo: 'dryer',
  holdingGate: 'full',
  emulsionFeed: 'full',
  waterValve: true,
  antiStripPump: true,
  oilBurner: true,
  drumTurn: true,
  drumDischarge: true,
  pugMill: true,
  mixerGate: true,
  belt: true,
  hoodFan: false,
};
const WANTS: readonly Outputs[] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15].map((bits) => ({
  ...REST_OF_IT,
  cutbackFeed: bits & 1 ? 'full' : 'shut',
  bucketValve: (bits & 2) !== 0,
  burnerPilot: (bits & 4) !== 0,
  burnerMain: bits & 8 ? 'low' : 'shut',
}));

/** Bits of a verdict: which rules some demand could break in this state. */
export const VERDICTS = [
  'NR-01',
  'NR-02',
  'NR-03',
  'NR-04',
  'NR-05',
  'NR-06',
  'NR-18',
  'NR-19',
  'NR-30',
  'NR-31',
  'NR-32',
] as const;

/** Judged from the state value itself, not through the functions the gate uses. */
const judge = (value: Record<string, ChartValue>, mayAdmitFuel: boolean, out: Outputs): number => {
  const flame = out.burnerPilot || out.burnerMain !== 'shut';
  const feed = out.cutbackFeed !== 'shut';
  const solventInBucket = value.bucket === 'cutback';
  const binder = out.bucketValve && (solventInBucket || feed);
  const stopped = typeof value.trip === 'object';
  const emergency =
    value.emergencyStop === 'pressed' || (typeof value.trip === 'object' && value.trip.tripped === 'FT-07');
  let verdict = 0;
  if (flame && (binder || feed)) verdict |= 1;
  if (flame && (solventInBucket || value.mixer === 'cutback')) verdict |= 2;
  if ((binder || feed) && value.dryer !== 'purged') verdict |= 4;
  if (
    binder &&
    (value.extraction !== 'proved' ||
      value.vapour !== 'low' ||
      value.detector !== 'healthy' ||
      value.aggregate !== 'withinLimit' ||
      value.binder !== 'inWindow')
  )
    verdict |= 8;
  if (
    stopped &&
    (flame ||
      feed ||
      out.bucketValve ||
      out.bin1Gate !== 'shut' ||
      out.hopperTo !== 'shut' ||
      out.holdingGate !== 'shut' ||
      out.emulsionFeed !== 'shut' ||
      out.waterValve ||
      out.antiStripPump ||
      out.oilBurner ||
      !out.hoodFan)
  )
    verdict |= 16;
  if (flame && !mayAdmitFuel) verdict |= 32;
  const moves = out.drumTurn || out.drumDischarge || out.pugMill || out.mixerGate || out.belt;
  if (emergency && moves) verdict |= 64;
  if (out.burnerPilot && value.valve !== 'shut') verdict |= 128;
  const doubtful =
    value.binderLimit !== 'below' || value.hotWork !== 'closed' || value.cutbackTank !== 'confirmed';
  if (
    ((binder || feed) && doubtful) ||
    ((binder || flame) && value.calibration !== 'in') ||
    (out.emulsionFeed !== 'shut' && value.emulsionTank !== 'confirmed')
  )
    verdict |= 256;
  if (
    (flame && (value.vapour !== 'low' || value.extraction !== 'proved' || value.detector !== 'healthy')) ||
    (feed && value.valve !== 'shut' && value.valve !== 'opening')
  )
    verdict |= 512;
  const powerless =
    value.power === 'lost' || (typeof value.trip === 'object' && value.trip.tripped === 'FT-11');
  if (powerless && (moves || flame || feed || out.bucketValve || out.oilBurner)) verdict |= 1024;
  return verdict;
};

const SOME_BURNER: readonly ChartValue[] = ['off', 'pilotTrial'];

/** The verdict on a base, a trip state and whether the burner may admit fuel. */
export type GateVerdicts = (base: number, trip: number, admits: 0 | 1) => number;

/** Worked out once a state, when first asked for. */
export const gateVerdicts = (rules: GateRules = GATE_RULES): GateVerdicts => {
  const known = new Int16Array(BASES * TRIP_STATES * 2).fill(-1);
  return (base, trip, admits) => {
    const index = (base * TRIP_STATES + trip) * 2 + admits;
    if (known[index] !== -1) return known[index] as number;
    const value = stateValueOf(base, trip) as Record<string, ChartValue>;
    const burner = SOME_BURNER[admits] as ChartValue;
    let verdict = 0;
    for (const wanted of WANTS)
      verdict |= judge(value, admits === 1, gate(wanted, value, burner, TANKS_SAFE, rules).outputs);
    known[index] = verdict;
    return verdict;
  };
};

const EMERGENCY = TRIPPED + TRIPS.findIndex((trip) => trip.id === 'FT-07');
const POWERLESS = TRIPPED + TRIPS.findIndex((trip) => trip.id === 'FT-11');

/** Every breach of a gate rule in every state of the interlock there could be, reachable or not, in words; no more than about `most` of them. */
export const gateSweep = (
  rules: GateRules = GATE_RULES,
  most = Number.POSITIVE_INFINITY,
): { readonly judged: number; readonly breaches: string[] } => {
  const verdicts = gateVerdicts(rules);
  const breaches: string[] = [];
  for (let base = 0; base < BASES; base++)
    for (const trip of [STARTING, WATCHING, TRIPPED, EMERGENCY, POWERLESS])
      for (const admits of [0, 1] as const) {
        const verdict = verdicts(base, trip, admits);
        if (breaches.length >= most) return { judged: base * 10, breaches };
        if (verdict === 0) continue;
        const ids = VERDICTS.filter((_, bit) => verdict & (1 << bit)).join(', ');
        breaches.push(`${ids}: ${JSON.stringify(stateValueOf(base, trip))} burner ${SOME_BURNER[admits]}`);
      }
  return { judged: BASES * 10, breaches };
};

/** Asked beside a flame, with a way, and with the binder valve alone; emulsion and all else in each of them. */
const FREE_WANTS: readonly Outputs[] = [
  { ...REST_OF_IT, burnerPilot: true, burnerMain: 'low' },
  { ...REST_OF_IT, cutbackFeed: 'full', bucketValve: true },
  { ...REST_OF_IT, bucketValve: true },
];

/**
 * The regions no trip looks at, in every combination, beside every combination of the others the interlock can
 * watch in: none in which a trip cause stands (NR-09), while a tripped interlock lets none of their elements
 * through (judged above). A starting one lets nothing but emulsion through: there all of them at their unsafe side.
 */
export const freeGateSweep = (
  rules: GateRules = GATE_RULES,
  most = Number.POSITIVE_INFINITY,
): { readonly judged: number; readonly breaches: string[] } => {
  const breaches: string[] = [];
  let judged = 0;
  const judgeAll = (value: Record<string, ChartValue>, bits: number): void => {
    FREE.forEach((region, bit) => {
      value[region] = REGIONS[region][bits & (1 << bit) ? 1 : 0];
    });
    let verdict = 0;
    for (const wanted of FREE_WANTS)
      verdict |= judge(value, true, gate(wanted, value, 'pilotTrial', TANKS_SAFE, rules).outputs);
    judged++;
    if (verdict === 0) return;
    const ids = VERDICTS.filter((_, bit) => verdict & (1 << bit)).join(', ');
    breaches.push(`${ids}: ${JSON.stringify(value)}`);
  };
  for (let base = 0; base < BASES; base++) {
    judgeAll(stateValueOf(base, STARTING) as Record<string, ChartValue>, 0);
    if (breaches.length >= most) break;
    const value = stateValueOf(base, WATCHING) as Record<string, ChartValue>;
    if (standingCauses(value).length > 0) continue;
    for (let bits = 0; bits < FREES - 1; bits++) judgeAll(value, bits);
  }
  return { judged, breaches };
};
