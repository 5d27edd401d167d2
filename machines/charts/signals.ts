/**
 * The yes-or-no facts charts may hear about. A chart never sees a reading: it hears
 * `on.<signal>` when one became true and `off.<signal>` when it ceased to be.
 */
export const SIGNALS = {
  // Dryer and burner
  drumFanProved: 'Dryer fan moves enough air',
  purged: 'Drum purged: enough volumes changed since the last flame, fuel or fan loss',
  flameSeen: 'Scanner sees a dryer flame',
  fuelShut: 'Dryer fuel valve proved shut',
  fuelAskedOpen: 'Dryer pilot or main fuel valve is asked to open',
  drumDry: 'Aggregate in the drum is dry and at its outlet temperature',
  drumLoaded: 'There is aggregate in the drum',
  drumTooHot: 'Aggregate in the drum is far above its outlet temperature',
  drumEmpty: 'Drum has run empty',
  // Hood and vapour
  extractionProved: 'Hood extraction proved',
  vapourLow: 'Vapour at the hood below the warning level',
  vapourHigh: 'Vapour at the hood at or above the trip level',
  detectorOk: 'Vapour detector healthy',
  // Binder and mixer
  aggregateOverLimit: 'Aggregate above the limit for solvent-bearing binder',
  cutbackInWindow: 'Cutback in its working window',
  cutbackInBucket: 'Weigh bucket holds solvent-bearing binder',
  cutbackInMixer: 'Pug mill holds solvent-bearing binder',
  binderValveShut: 'Binder valve to the pug mill proved shut',
  binderValveAskedOpen: 'Binder valve to the pug mill is asked to open',
  emergencyStop: 'Emergency stop pressed',
  powerOk: 'Supply to the plant healthy',
  detectorCalibrated: 'Vapour detector calibrated in time and not seen to drift',
  hotWorkOpen: 'A hot work permit is open',
  emulsionKnown: 'Contents of the emulsion tank confirmed',
  cutbackKnown: 'Contents of the cutback tank confirmed',
  // Told by the flame interlock to the other charts
  flamePermitted: 'Flame interlock lets the dryer fire',
  tripped: 'Flame interlock tripped',
  // Thermal-oil heater and tanks
  heatWanted: 'A tank asks for heat',
  oilFlowing: 'Thermal oil flow proved',
  oilFlameSeen: 'Thermal-oil heater flame seen',
  oilHot: 'Thermal oil at its set temperature',
  oilOverLimit: 'Thermal oil above its limit',
  emulsionCovered: 'Emulsion stands high enough above its coil',
  cutbackCovered: 'Cutback stands high enough above its coil',
  emulsionWarm: 'Emulsion at its set temperature',
  cutbackWarm: 'Cutback at its set temperature',
  emulsionOverLimit: 'Emulsion above the temperature it may not pass',
  cutbackOverLimit: 'Cutback above the temperature it may not pass',
  emulsionDelivery: 'A delivery into the emulsion tank is under way',
  cutbackDelivery: 'A delivery into the cutback tank is under way',
  emulsionDrawn: 'Emulsion is drawn from its tank, which its kind of heater does not allow while heating',
  cutbackDrawn: 'Cutback is drawn from its tank, which its kind of heater does not allow while heating',
  emulsionVentHigh: 'Vapour at the vents too high to heat the emulsion tank',
  cutbackVentHigh: 'Vapour at the vents too high to heat the cutback tank',
  emulsionDry: 'No water that could foam in the emulsion tank at its set temperature',
  cutbackDry: 'No water that could foam in the cutback tank at its set temperature',
  /** Told by the tank interlocks. */
  emulsionMayHeat: 'Tank interlock lets the emulsion tank ask for heat',
  cutbackMayHeat: 'Tank interlock lets the cutback tank ask for heat',
  // Weighing and the batch
  aggregatesWeighed: 'Aggregates for this batch weighed and within tolerance',
  hopperEmpty: 'Weigh hopper empty',
  dryWeighed: 'Dry aggregate drawn from the holding bin and within tolerance',
  binderWeighed: 'Binder weighed and within tolerance',
  bucketEmpty: 'Weigh bucket empty',
  waterDelivered: 'Pre-wet water delivered',
  antiStripDelivered: 'Anti-strip delivered',
  aggregateInWindow: 'Aggregate for this batch inside its window',
  binderInWindow: 'Binder for this batch inside its window',
  readyForBinder: 'Everything the binder valve waits for is met',
  mixerEmpty: 'Pug mill has run empty',
  allEmpty: 'Hopper, pug mill and any spoilt binder have run empty',
  drumCharged: 'The whole charge has fallen into the drum',
  mixerTurning: 'Pug mill turning',
  weightOutOfTolerance: 'A weight is outside its tolerance',
  // Drying campaign
  enoughDried: 'As much aggregate dried as the campaign asked for',
  burnerRunning: 'Burner on main flame',
  burnerLockedOut: 'Burner locked out',
  burnerAtRest: 'Burner off, purged or not',
  burnerOff: 'Burner off and purged',
  holdingBinCool: 'Aggregate in the holding bin inside its window',
  holdingBinUsed: 'Too little dry aggregate left for another batch',
} as const;

export type Signal = keyof typeof SIGNALS;
export const SIGNAL_NAMES = Object.keys(SIGNALS) as readonly Signal[];
export type Signals = { readonly [K in Signal]: boolean };
export type SignalEvent = { readonly type: `on.${Signal}` } | { readonly type: `off.${Signal}` };

/** What the operator reads while a chart is in a state. */
export type StateMeta = { readonly title: string; readonly instruction?: string };
