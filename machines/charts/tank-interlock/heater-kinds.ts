/**
 * The three kinds of tank heater and what each asks for before it may heat. A fire tube is hottest and has a
 * flame under the product, so it is the strictest. Figures: common practice, no source, unless said.
 */
export const HEATER_KIND_NAMES = ['thermal-oil', 'electric', 'fire-tube'] as const;
export type HeaterKind = (typeof HEATER_KIND_NAMES)[number];

export type HeaterRules = {
  readonly words: string;
  /** Least product above the heating surface, mm; a plant file may ask for more. */
  readonly coverMm: number;
  /** It may go on heating while binder is drawn from the tank; a delivery always stops it. */
  readonly heatsWhileDrawn: boolean;
  /** Vapour at the vents from which it is shut, % of the lower explosive limit. */
  readonly ventLimitLelPct: number;
};

export const HEATER_KINDS: { readonly [K in HeaterKind]: HeaterRules } = {
  // 150 mm of cover at the least: from memory. Twice that over a flame, and the warning level at the vents: invented.
  'fire-tube': {
    words: 'Fire tube: a flame in a tube through the tank',
    coverMm: 300,
    heatsWhileDrawn: false,
    ventLimitLelPct: 10,
  },
  'thermal-oil': {
    words: 'Thermal oil: a coil fed from a heater that stands apart',
    coverMm: 150,
    heatsWhileDrawn: true,
    ventLimitLelPct: 20,
  },
  electric: {
    words: 'Electric: elements in sheaths, no flame',
    coverMm: 150,
    heatsWhileDrawn: true,
    ventLimitLelPct: 20,
  },
};

/** Water under hot binder flashes to steam and foams; contents to be heated above this must be free of it. From memory. */
export const FOAMS_ABOVE_C = 95;
