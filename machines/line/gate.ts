/**
 * The gate: the last thing between what the charts ask for and the field. Whatever is asked,
 * it lets nothing through that the flame interlock forbids. Pure, with no memory.
 */

import { burnerMayAdmitFuel } from '../charts/burner/burner.guards.ts';
import type { InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import {
  binderBlockedBy,
  binderMayFlow,
  bucketMayHoldCutback,
  burnerMayFire,
  type ChartValue,
  cutbackMayFeed,
  feedBlockedBy,
  flameBlockedBy,
  isTripped,
  latchedCauses,
  mixerMayHoldCutback,
  pilotMayOpen,
  regionState,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import { AT_REST, type Outputs } from '../field/outputs.ts';

export type HeldElement = {
  /** In the operator's words. */
  readonly element: string;
  readonly key: keyof Outputs;
  /** Empty when it is not the interlock but the burner's own state that forbids it. */
  readonly because: readonly InterlockCauseId[];
};

export type Gated = { readonly outputs: Outputs; readonly held: readonly HeldElement[] };

/** What is asked of the gate; a test may hand it a broken one to see that it is caught. */
export type GateRules = {
  readonly binderMayFlow: (interlock: ChartValue) => boolean;
  readonly cutbackMayFeed: (interlock: ChartValue) => boolean;
  readonly burnerMayFire: (interlock: ChartValue) => boolean;
  readonly pilotMayOpen: (interlock: ChartValue) => boolean;
  readonly burnerMayAdmitFuel: (burner: ChartValue) => boolean;
  readonly isTripped: (interlock: ChartValue) => boolean;
  /** The last word: no flame beside an open way for solvent-bearing binder. */
  readonly flameGivesWay: boolean;
};

export const GATE_RULES: GateRules = {
  binderMayFlow,
  cutbackMayFeed,
  burnerMayFire,
  pilotMayOpen,
  burnerMayAdmitFuel,
  isTripped,
  flameGivesWay: true,
};

const NONE: readonly HeldElement[] = [];

const ELEMENTS: { readonly [K in keyof Outputs]?: string } = {
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
};

/** Shut by any trip. */
const CLOSED_BY_A_TRIP: readonly (keyof Outputs)[] = [
  'burnerPilot',
  'burnerMain',
  'cutbackFeed',
  'bucketValve',
  'emulsionFeed',
  'bin1Gate',
  'bin2Gate',
  'bin3Gate',
  'bin4Gate',
  'hopperTo',
  'holdingGate',
  'waterValve',
  'antiStripPump',
  'oilBurner',
];

/** Stopped as well while the emergency stop is pressed or was what tripped. */
const STOPPED_BY_EMERGENCY: readonly (keyof Outputs)[] = [
  'drumTurn',
  'drumDischarge',
  'pugMill',
  'mixerGate',
  'belt',
];

const EMERGENCY: readonly InterlockCauseId[] = ['FT-07'];

const asksNothingRisky = (wanted: Outputs): boolean =>
  !wanted.burnerPilot &&
  wanted.burnerMain === 'shut' &&
  wanted.cutbackFeed === 'shut' &&
  !wanted.bucketValve &&
  wanted.hoodFan;

/** Outputs that may go to the field, and what was held back and why. */
export const gate = (
  wanted: Outputs,
  interlock: ChartValue,
  burner: ChartValue,
  rules: GateRules = GATE_RULES,
): Gated => {
  const tripped = rules.isTripped(interlock);
  if (!tripped && asksNothingRisky(wanted) && regionState(interlock, 'emergencyStop') === 'released')
    return { outputs: wanted, held: NONE };

  // Copied at the first element held; the object asked for is never changed.
  let outputs: { -readonly [K in keyof Outputs]: Outputs[K] } = wanted;
  const held: HeldElement[] = [];
  /** Puts an element at rest (the hood fan: running) and says so, if it was asked for anything else. */
  const hold = <K extends keyof Outputs>(key: K, because: readonly InterlockCauseId[]): void => {
    if (outputs[key] === AT_REST[key]) return;
    if (outputs === wanted) outputs = { ...wanted };
    outputs[key] = AT_REST[key];
    held.push({ element: ELEMENTS[key] ?? key, key, because });
  };

  if (tripped) for (const key of CLOSED_BY_A_TRIP) hold(key, latchedCauses(interlock));
  const emergency =
    regionState(interlock, 'emergencyStop') !== 'released' || latchedCauses(interlock)[0] === 'FT-07';
  if (emergency) {
    for (const key of CLOSED_BY_A_TRIP) hold(key, EMERGENCY);
    for (const key of STOPPED_BY_EMERGENCY) hold(key, EMERGENCY);
  }
  if (tripped || mixerMayHoldCutback(interlock))
    hold('hoodFan', tripped ? latchedCauses(interlock) : ['FI-03']);

  const feeding = outputs.cutbackFeed !== 'shut';
  const bucketSolvent = feeding || bucketMayHoldCutback(interlock);
  if (outputs.bucketValve && bucketSolvent && !rules.binderMayFlow(interlock))
    hold('bucketValve', binderBlockedBy(interlock));
  if (feeding && !rules.cutbackMayFeed(interlock)) hold('cutbackFeed', feedBlockedBy(interlock));

  if (outputs.burnerPilot || outputs.burnerMain !== 'shut') {
    const wayOpen = (outputs.bucketValve && bucketSolvent) || outputs.cutbackFeed !== 'shut';
    if (!rules.burnerMayFire(interlock) || !rules.burnerMayAdmitFuel(burner)) {
      const because = flameBlockedBy(interlock);
      hold('burnerPilot', because);
      hold('burnerMain', because);
    } else if (outputs.burnerPilot && !rules.pilotMayOpen(interlock)) {
      hold('burnerPilot', ['FI-13']);
      hold('burnerMain', ['FI-13']);
    } else if (rules.flameGivesWay && wayOpen) {
      hold('burnerPilot', ['FI-12']);
      hold('burnerMain', ['FI-12']);
    }
  }
  return { outputs, held: held.length === 0 ? NONE : held };
};
