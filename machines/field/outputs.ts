/**
 * What a field can be asked to do, whole, every moment. There are no pulses:
 * an output is the wanted position, so a lost message does no lasting harm.
 */
export type Opening = 'shut' | 'dribble' | 'full';

export type Outputs = {
  /** Feed gates of cold bins 1 to 4, in order; at most one is open at a time. */
  readonly bin1Gate: Opening;
  readonly bin2Gate: Opening;
  readonly bin3Gate: Opening;
  readonly bin4Gate: Opening;
  /** Weigh hopper discharge, with the chute to the pug mill or to the dryer. */
  readonly hopperTo: 'shut' | 'mixer' | 'dryer';
  readonly drumTurn: boolean;
  /** Dryer fan: purges, carries combustion air and draws the drum. */
  readonly drumFan: boolean;
  readonly burnerPilot: boolean;
  readonly burnerMain: 'shut' | 'low' | 'high';
  /** Drum gate into the dry holding bin. */
  readonly drumDischarge: boolean;
  readonly coolingFan: boolean;
  /** Holding bin gate into the pug mill. */
  readonly holdingGate: Opening;
  /** Tank to weigh bucket. */
  readonly emulsionFeed: Opening;
  readonly cutbackFeed: Opening;
  /** Weigh bucket to pug mill. */
  readonly bucketValve: boolean;
  readonly waterValve: boolean;
  readonly antiStripPump: boolean;
  readonly pugMill: boolean;
  readonly mixerGate: boolean;
  readonly belt: boolean;
  /** Where the belt lays the mix: bay 1 and up; 0 is the waste skip. */
  readonly beltToBay: number;
  readonly hoodFan: boolean;
  readonly oilPump: boolean;
  readonly oilBurner: boolean;
  readonly emulsionCoil: boolean;
  readonly cutbackCoil: boolean;
  readonly emulsionStir: boolean;
  readonly cutbackStir: boolean;
};

/** Everything shut and still except the hood fan: what a line asks for when it knows nothing. */
export const AT_REST: Outputs = {
  bin1Gate: 'shut',
  bin2Gate: 'shut',
  bin3Gate: 'shut',
  bin4Gate: 'shut',
  hopperTo: 'shut',
  drumTurn: false,
  drumFan: false,
  burnerPilot: false,
  burnerMain: 'shut',
  drumDischarge: false,
  coolingFan: false,
  holdingGate: 'shut',
  emulsionFeed: 'shut',
  cutbackFeed: 'shut',
  bucketValve: false,
  waterValve: false,
  antiStripPump: false,
  pugMill: false,
  mixerGate: false,
  belt: false,
  beltToBay: 0,
  hoodFan: true,
  oilPump: false,
  oilBurner: false,
  emulsionCoil: false,
  cutbackCoil: false,
  emulsionStir: false,
  cutbackStir: false,
};

/** Faults an instrument can be given (the truth behind it goes on unharmed). */
export type InstrumentFault =
  | { readonly fault: 'stuck' }
  | { readonly fault: 'dead' }
  | { readonly fault: 'noisy' }
  /** Drifts by so many units of the tag an hour. */
  | { readonly fault: 'drift'; readonly perHour: number }
  /** Reads so many % of the true value too much: right at zero, and the more wrong the more there is. */
  | { readonly fault: 'span'; readonly offPct: number };

/** Faults an item of equipment can be given. */
export const EQUIPMENT_FAULTS = [
  'hoodFanStopped',
  'drumFanStopped',
  'binderValveLeaking',
  'fuelValveLeaking',
  'oilPumpStopped',
  'flameWillNotLight',
  /** The supply to the plant fails: every motor stops and every valve shuts, until it is back. */
  'powerDip',
  /** What the next truck carries is not what its ticket says, but the other binder. */
  'wrongBinderInTruck',
] as const;
export type EquipmentFault = (typeof EQUIPMENT_FAULTS)[number];

/** One-off requests to the field, beside the standing outputs. */
export type FieldAsk =
  | { readonly ask: 'refillBin'; readonly bin: number }
  /** The loader takes what the holding bin holds to the waste heap. */
  | { readonly ask: 'clearHoldingBin' }
  | {
      readonly ask: 'instrumentFault';
      readonly tag: import('./tags.ts').Tag;
      readonly fault: InstrumentFault | null;
    }
  | { readonly ask: 'equipmentFault'; readonly equipment: EquipmentFault; readonly on: boolean }
  /** A truck is coupled to a tank and pumps until it is empty or uncoupled. */
  | {
      readonly ask: 'delivery';
      readonly tank: 'emulsion' | 'cutback';
      readonly product: 'emulsion' | 'cutback';
      readonly kg: number;
      readonly kgS: number;
    }
  | { readonly ask: 'deliveryEnds'; readonly tank: 'emulsion' | 'cutback' }
  /** Free water is drawn off the bottom of a tank. */
  | { readonly ask: 'drawWater'; readonly tank: 'emulsion' | 'cutback' }
  /** A person calibrates the vapour detector with test gas: an instrument that drifted reads true again. */
  | { readonly ask: 'calibrateDetector' }
  /** A person presses or pulls out the emergency stop at the plant. */
  | { readonly ask: 'emergencyStop'; readonly pressed: boolean };
