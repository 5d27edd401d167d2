/** The regions of the flame interlock and their states; the first state of each is its unsafe side, where it starts. */
export const REGIONS = {
  /** Flame, fuel and post-purge of the dryer, together because one clears the other. */
  dryer: [
    'firing',
    'fuelOpen',
    'fuelUnlit',
    'fuelAsked',
    'flameUnexplained',
    'scannerFault',
    'purgeDue',
    'airing',
    'purged',
  ],
  extraction: ['lost', 'proved'],
  vapour: ['high', 'raised', 'low'],
  detector: ['fault', 'healthy'],
  aggregate: ['overLimit', 'withinLimit'],
  binder: ['outOfWindow', 'inWindow'],
  /** Whether the weigh bucket may hold solvent-bearing binder. */
  bucket: ['cutback', 'noCutback'],
  /** Whether the pug mill may hold solvent-bearing binder. */
  mixer: ['cutback', 'noCutback'],
  /** Binder valve from the bucket to the pug mill; everything but shut and opening is an open way. */
  valve: ['notShut', 'closing', 'open', 'opening', 'shut'],
  emergencyStop: ['pressed', 'released'],
  power: ['lost', 'healthy'],
  /** Cutback above the temperature it may not pass, whatever its window. */
  binderLimit: ['over', 'below'],
  calibration: ['out', 'in'],
  hotWork: ['open', 'closed'],
  /** Whether it is known what is in each tank. */
  cutbackTank: ['unconfirmed', 'confirmed'],
  emulsionTank: ['unconfirmed', 'confirmed'],
  trip: ['starting', 'tripped', 'watching'],
} as const;

export type Region = keyof typeof REGIONS;
export type RegionState<R extends Region> = (typeof REGIONS)[R][number];

/** Some regions each in one of some states, all at once. */
export type Situation = { readonly [R in Region]?: readonly RegionState<R>[] };

/** True when any of its situations is. */
export type Condition = readonly Situation[];
