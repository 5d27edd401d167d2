/**
 * The gate: the last thing between what the charts ask for and the field. Whatever is asked,
 * it lets nothing through that the flame interlock forbids. Pure, with no memory.
 */

import { burnerMayAdmitFuel } from '../charts/burner/burner.guards.ts';
import { standingSafeguards } from '../charts/burner/burner.safeguards.ts';
import type { InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import {
  CLOSED_BY_A_TRIP,
  FUEL,
  STOPPED_BY_EMERGENCY,
} from '../charts/flame-interlock/flame-interlock.elements.ts';
import {
  allIsStopped,
  binderBlockedBy,
  binderMayFlow,
  bucketMayHoldCutback,
  burnerMayFire,
  type ChartValue,
  cutbackMayFeed,
  emulsionBlockedBy,
  emulsionMayFeed,
  feedBlockedBy,
  flameBlockedBy,
  isTripped,
  latchedCauses,
  mixerMayHoldCutback,
  pilotMayOpen,
  regionState,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import {
  fireBlockedBy,
  heatBlockedBy,
  oilMayBeFired,
  tankMayBeHeated,
} from '../charts/tank-interlock/tank-interlock.guards.ts';
import { AT_REST, type Outputs } from '../field/outputs.ts';

export type HeldElement = {
  /** In the operator's words. */
  readonly element: string;
  readonly key: keyof Outputs;
  /** Empty when the burner rests and nobody has lit it. */
  readonly because: readonly InterlockCauseId[];
};

export type Gated = { readonly outputs: Outputs; readonly held: readonly HeldElement[] };

/** State values of the two tank interlocks. */
export type TankValues = { readonly emulsion: ChartValue; readonly cutback: ChartValue };

/** What is asked of the gate; a test may hand it a broken one to see that it is caught. */
export type GateRules = {
  readonly binderMayFlow: (interlock: ChartValue) => boolean;
  readonly cutbackMayFeed: (interlock: ChartValue) => boolean;
  readonly emulsionMayFeed: (interlock: ChartValue) => boolean;
  readonly burnerMayFire: (interlock: ChartValue) => boolean;
  readonly pilotMayOpen: (interlock: ChartValue) => boolean;
  readonly burnerMayAdmitFuel: (burner: ChartValue) => boolean;
  readonly isTripped: (interlock: ChartValue) => boolean;
  readonly allIsStopped: (interlock: ChartValue) => boolean;
  readonly tankMayBeHeated: (tank: ChartValue) => boolean;
  readonly oilMayBeFired: (tank: ChartValue) => boolean;
  /** The last word: no flame beside an open way for solvent-bearing binder. */
  readonly flameGivesWay: boolean;
};

export const GATE_RULES: GateRules = {
  binderMayFlow,
  cutbackMayFeed,
  emulsionMayFeed,
  burnerMayFire,
  pilotMayOpen,
  burnerMayAdmitFuel,
  isTripped,
  allIsStopped,
  tankMayBeHeated,
  oilMayBeFired,
  flameGivesWay: true,
};

const NONE: readonly HeldElement[] = [];

/** Final elements in the operator's words. */
export const ELEMENT_WORDS: { readonly [K in keyof Outputs]?: string } = {
  bin1Gate: 'Gate of bin 1',
  bin2Gate: 'Gate of bin 2',
  bin3Gate: 'Gate of bin 3',
  bin4Gate: 'Gate of bin 4',
  hopperTo: 'Weigh hopper gate',
  drumTurn: 'Dryer drum',
  burnerPilot: 'Dryer pilot valve',
  burnerMain: 'Dryer main fuel valve',
  drumDischarge: 'Drum gate',
  holdingGate: 'Holding bin gate',
  emulsionFeed: 'Emulsion feed to the bucket',
  cutbackFeed: 'Cutback feed to the bucket',
  bucketValve: 'Binder valve to the pug mill',
  waterValve: 'Water valve',
  antiStripPump: 'Anti-strip pump',
  pugMill: 'Pug mill',
  mixerGate: 'Mixer gate',
  belt: 'Belt',
  hoodFan: 'Hood fan, kept running',
  oilBurner: 'Thermal-oil burner',
  emulsionCoil: 'Coil of the emulsion tank',
  cutbackCoil: 'Coil of the cutback tank',
};

/** What stops everything: the emergency stop, unless it was the supply alone. */
const stoppedBy = (interlock: ChartValue): readonly InterlockCauseId[] => {
  if (regionState(interlock, 'emergencyStop') !== 'released') return ['FT-07'];
  if (regionState(interlock, 'power') !== 'healthy') return ['FT-11'];
  return latchedCauses(interlock);
};

const asksNothingRisky = (wanted: Outputs): boolean =>
  !wanted.burnerPilot &&
  wanted.burnerMain === 'shut' &&
  wanted.cutbackFeed === 'shut' &&
  wanted.emulsionFeed === 'shut' &&
  !wanted.bucketValve &&
  !wanted.oilBurner &&
  !wanted.emulsionCoil &&
  !wanted.cutbackCoil &&
  wanted.hoodFan;

/** Outputs that may go to the field, and what was held back and why. */
export const gate = (
  wanted: Outputs,
  interlock: ChartValue,
  burner: ChartValue,
  tanks: TankValues,
  rules: GateRules = GATE_RULES,
): Gated => {
  const tripped = rules.isTripped(interlock);
  const stopped = rules.allIsStopped(interlock);
  if (!tripped && !stopped && asksNothingRisky(wanted)) return { outputs: wanted, held: NONE };

  // Copied at the first element held; the object asked for is never changed.
  let outputs: { -readonly [K in keyof Outputs]: Outputs[K] } = wanted;
  const held: HeldElement[] = [];
  /** Puts an element at rest (the hood fan: running) and says so, if it was asked for anything else. */
  const hold = <K extends keyof Outputs>(key: K, because: readonly InterlockCauseId[]): void => {
    if (outputs[key] === AT_REST[key]) return;
    if (outputs === wanted) outputs = { ...wanted };
    outputs[key] = AT_REST[key];
    held.push({ element: ELEMENT_WORDS[key] ?? key, key, because });
  };

  if (tripped) for (const key of CLOSED_BY_A_TRIP) hold(key, latchedCauses(interlock));
  if (stopped) {
    const because = stoppedBy(interlock);
    for (const key of CLOSED_BY_A_TRIP) hold(key, because);
    for (const key of STOPPED_BY_EMERGENCY) hold(key, because);
  }
  if (tripped) hold('hoodFan', latchedCauses(interlock));
  else if (stopped) hold('hoodFan', stoppedBy(interlock));
  else if (mixerMayHoldCutback(interlock)) hold('hoodFan', ['FI-11']);

  const feeding = outputs.cutbackFeed !== 'shut';
  const bucketSolvent = feeding || bucketMayHoldCutback(interlock);
  if (outputs.bucketValve && bucketSolvent && !rules.binderMayFlow(interlock))
    hold('bucketValve', binderBlockedBy(interlock));
  if (feeding && !rules.cutbackMayFeed(interlock)) hold('cutbackFeed', feedBlockedBy(interlock));
  if (outputs.emulsionFeed !== 'shut' && !rules.emulsionMayFeed(interlock))
    hold('emulsionFeed', emulsionBlockedBy(interlock));

  if (outputs.burnerPilot || outputs.burnerMain !== 'shut') {
    const wayOpen = (outputs.bucketValve && bucketSolvent) || outputs.cutbackFeed !== 'shut';
    const holdFuel = (because: readonly InterlockCauseId[]): void => {
      for (const key of FUEL) hold(key, because);
    };
    if (!rules.burnerMayFire(interlock) || !rules.burnerMayAdmitFuel(burner))
      holdFuel([...flameBlockedBy(interlock), ...standingSafeguards(burner)]);
    else if (outputs.burnerPilot && !rules.pilotMayOpen(interlock)) holdFuel(['FI-13']);
    else if (rules.flameGivesWay && wayOpen) holdFuel(['FI-12']);
  }

  if (outputs.emulsionCoil && !rules.tankMayBeHeated(tanks.emulsion))
    hold('emulsionCoil', heatBlockedBy('emulsion', tanks.emulsion));
  if (outputs.cutbackCoil && !rules.tankMayBeHeated(tanks.cutback))
    hold('cutbackCoil', heatBlockedBy('cutback', tanks.cutback));
  if (outputs.oilBurner && !(rules.oilMayBeFired(tanks.emulsion) && rules.oilMayBeFired(tanks.cutback)))
    hold('oilBurner', [
      ...fireBlockedBy('emulsion', tanks.emulsion),
      ...fireBlockedBy('cutback', tanks.cutback),
    ]);
  return { outputs, held: held.length === 0 ? NONE : held };
};
