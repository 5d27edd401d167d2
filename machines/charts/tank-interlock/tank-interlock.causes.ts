/** What must be so before a binder tank may be heated, as data: one row a requirement, an ID of its own for each tank. */
import type { ElementKey } from '../flame-interlock/flame-interlock.elements.ts';
import type { TankId } from '../tank-heater/tank-heater.events.ts';

/** The regions of a tank interlock and their states; the first state of each is its unsafe side, where it starts. */
export const TANK_REGIONS = {
  cover: ['bare', 'covered'],
  limit: ['over', 'below'],
  flow: ['lost', 'proved'],
  delivery: ['underWay', 'none'],
  dispensing: ['underWay', 'none'],
  vent: ['high', 'low'],
  contents: ['unconfirmed', 'confirmed'],
  water: ['suspected', 'none'],
  hotWork: ['open', 'closed'],
} as const;

export type TankRegion = keyof typeof TANK_REGIONS;

type Row = {
  readonly n: `${number}`;
  readonly region: TankRegion;
  readonly hazard: string;
  readonly cause: string;
  readonly clears: string;
  readonly reset: string;
  /** Holds the oil burner as well: no fire without flow, none beside vapour. */
  readonly oilBurner: boolean;
  /** Comes about only once heat is asked for: it shuts the coil, but heat may be asked for without it. */
  readonly comesWithHeat: boolean;
  readonly words: { readonly met: string; readonly unmet: string; readonly clear: string };
};

const ITSELF = 'none: met again by itself';

/** `{tank}` stands for the name of the tank. */
const ROWS: readonly Row[] = [
  {
    n: '01',
    region: 'cover',
    hazard: 'A bare heating surface burns the binder and lights its vapour',
    cause: 'Too little product above the heating surface of the {tank} tank',
    clears: 'Tank filled until the surface is covered',
    reset: ITSELF,
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: '{Tank} covers the heating surface',
      unmet: 'Too little {tank} stands above the heating surface of its tank',
      clear: 'Fill the tank; do not heat it meanwhile.',
    },
  },
  {
    n: '02',
    region: 'limit',
    hazard: 'Overheated binder gives off vapour, breaks or burns',
    cause: '{Tank} tank at the temperature it may not pass, or its thermometer not to be trusted',
    clears: 'Tank cooled below its limit with a thermometer that moves',
    reset: ITSELF,
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: '{Tank} tank below its limit',
      unmet: 'The {tank} tank is at its limit, or its thermometer is not to be trusted',
      clear: 'Let it cool; have the thermometer looked at.',
    },
  },
  {
    n: '03',
    region: 'flow',
    hazard: 'Still oil cokes and cracks in the heater',
    cause: 'Flow of the heat carrier to the {tank} tank lost',
    clears: 'Flow proved',
    reset: ITSELF,
    oilBurner: true,
    comesWithHeat: true,
    words: {
      met: 'Heat carrier of the {tank} tank flowing',
      unmet: 'The heat carrier of the {tank} tank does not flow',
      clear: 'Look at the oil pump and its valves.',
    },
  },
  {
    n: '04',
    region: 'delivery',
    hazard: 'Heated product rises, splashes and drives vapour out of the vents',
    cause: 'A delivery into the {tank} tank is under way',
    clears: 'Delivery ended',
    reset: 'endDelivery',
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: 'No delivery into the {tank} tank',
      unmet: 'A delivery into the {tank} tank is under way',
      clear: 'Finish the delivery, uncouple, and end it here.',
    },
  },
  {
    n: '05',
    region: 'dispensing',
    hazard: 'The level falls over a heating surface with a flame in it',
    cause: '{Tank} drawn from its tank while a fire tube heats it',
    clears: 'Drawing finished',
    reset: ITSELF,
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: '{Tank} not drawn while a fire tube heats it',
      unmet: '{Tank} is being drawn, and a fire tube may not heat meanwhile',
      clear: 'Wait until the bucket is filled.',
    },
  },
  {
    n: '06',
    region: 'vent',
    hazard: 'Vapour from the vents finds the heater or another spark',
    cause: 'Vapour at the tank vents at the limit for heating the {tank} tank',
    clears: 'Vapour at the vents below the limit',
    reset: ITSELF,
    oilBurner: true,
    comesWithHeat: false,
    words: {
      met: 'Vapour at the vents low enough to heat the {tank} tank',
      unmet: 'Vapour at the tank vents is too high to heat the {tank} tank',
      clear: 'No sparks near the vents; wait until it has cleared and the tank has cooled.',
    },
  },
  {
    n: '07',
    region: 'contents',
    hazard: 'A binder of unknown flash point, or water in hot binder, is heated',
    cause: 'What is in the {tank} tank is not confirmed',
    clears: 'Contents confirmed',
    reset: 'confirmDelivery or identifyTank',
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: 'Contents of the {tank} tank confirmed for heating',
      unmet: 'What is in the {tank} tank is not confirmed: no heat',
      clear: 'End the delivery and confirm what was delivered, or have a supervisor identify the contents.',
    },
  },
  {
    n: '08',
    region: 'water',
    hazard: 'Water under hot binder flashes to steam; the binder foams over',
    cause: 'Water found or foam seen in the {tank} tank, which is to be heated above 95 °C, or has foamed',
    clears: 'Water drawn off and the tank proved dry',
    reset: 'proveCause for this cause, once foam was seen',
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: 'No water that could foam in the {tank} tank',
      unmet: 'There may be water in the {tank} tank that would foam',
      clear: 'Draw the water off cold, dip for water, then record the proof test of this cause.',
    },
  },
  {
    n: '09',
    region: 'hotWork',
    hazard: 'Sparks of hot work meet vapour from the vents',
    cause: 'A hot work permit is open, and the {tank} tank is not to breathe meanwhile',
    clears: 'Hot work permit closed',
    reset: 'closeHotWork',
    oilBurner: false,
    comesWithHeat: false,
    words: {
      met: 'No hot work permit open beside the {tank} tank',
      unmet: 'A hot work permit is open: the {tank} tank is not heated',
      clear: 'See that the hot work has stopped, then close the permit.',
    },
  },
];

const LETTER = { emulsion: 'TE', cutback: 'TC' } as const;
export type TankCauseId = `${'TE' | 'TC'}-0${1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9}`;

export type TankCause = Omit<Row, 'n' | 'oilBurner'> & {
  readonly id: TankCauseId;
  readonly tank: TankId;
  readonly mustNever: string;
  readonly elements: string;
  readonly holds: readonly ElementKey[];
};

const named = (text: string, tank: TankId): string =>
  text.replaceAll('{tank}', tank).replaceAll('{Tank}', `${tank[0]?.toUpperCase()}${tank.slice(1)}`);

const causeOf = (row: Row, tank: TankId): TankCause => ({
  id: `${LETTER[tank]}-${row.n}` as TankCauseId,
  tank,
  region: row.region,
  hazard: row.hazard,
  cause: named(row.cause, tank),
  mustNever: row.oilBurner
    ? `${named('{Tank}', tank)} coil open, oil burner lit`
    : `${named('{Tank}', tank)} coil open`,
  elements: row.oilBurner ? `${named('{Tank}', tank)} coil, oil burner` : `${named('{Tank}', tank)} coil`,
  holds: row.oilBurner ? [`${tank}Coil`, 'oilBurner'] : [`${tank}Coil`],
  clears: row.clears,
  reset: row.reset,
  comesWithHeat: row.comesWithHeat,
  words: {
    met: named(row.words.met, tank),
    unmet: named(row.words.unmet, tank),
    clear: named(row.words.clear, tank),
  },
});

export const TANK_IDS: readonly TankId[] = ['emulsion', 'cutback'];
export const TANK_CAUSES: readonly TankCause[] = TANK_IDS.flatMap((tank) =>
  ROWS.map((row) => causeOf(row, tank)),
);
