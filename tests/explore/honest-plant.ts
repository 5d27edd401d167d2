/**
 * The safety charts and the gate around a small honest plant: sensors tell the truth, valves and flame follow
 * what is let through but as late as they like, and whatever stands above the gate asks for anything.
 * The line may take its step after any number of plant moves.
 */
import { burnerDemands, purgeCountHeld } from '../../machines/charts/burner/burner.guards.ts';
import {
  burnerMayFire,
  type ChartValue,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { AT_REST } from '../../machines/field/outputs.ts';
import { GATE_RULES, type GateRules, gate } from '../../machines/line/gate.ts';
import type { ChartTable } from './chart-table.ts';
import type { Model } from './explorer.ts';
import {
  BASES,
  baseWith,
  INTERLOCK_EVENTS,
  type InterlockSpace,
  stateValueOf,
  TRIPPED,
  tripAfter,
  WATCHING,
} from './interlock-space.ts';
import { NEVER } from './never-rules.ts';
import { TANKS_SAFE } from './tank-models.ts';

/** Truth of the plant and the outputs in force, one bit each. */
const FLAME = 1;
const FUEL_OPEN = 2;
const IN_BUCKET = 4;
const IN_MIXER = 8;
const VALVE_OPEN = 16;
const PURGED = 32;
const FUEL_ASKED = 64;
const FEED_ASKED = 128;
const VALVE_ASKED = 256;
/** Asked to open not long ago: it may still open, or let through, although no longer asked. */
const FUEL_MOVING = 512;
const FEED_MOVING = 1024;
const VALVE_MOVING = 2048;
const PLANT = 4096;
const MOVING = FUEL_MOVING | FEED_MOVING | VALVE_MOVING;

type Move = {
  readonly name: string;
  readonly if: (plant: number) => boolean;
  readonly to: (plant: number) => number;
};
const has = (plant: number, bit: number): boolean => (plant & bit) !== 0;
const move = (name: string, when: Move['if'], to: Move['to']): Move => ({ name, if: when, to });

/** What is asked to be open is moving. */
const movingOf = (p: number): number =>
  (has(p, FUEL_ASKED) ? FUEL_MOVING : 0) |
  (has(p, FEED_ASKED) ? FEED_MOVING : 0) |
  (has(p, VALVE_ASKED) ? VALVE_MOVING : 0);

const PLANT_MOVES: readonly Move[] = [
  move(
    'fuel valve opens',
    (p) => has(p, FUEL_MOVING),
    (p) => p | FUEL_OPEN,
  ),
  move(
    'fuel valve closes',
    (p) => !has(p, FUEL_ASKED),
    (p) => p & ~FUEL_OPEN,
  ),
  move(
    'flame lights',
    (p) => has(p, FUEL_OPEN),
    (p) => p | FLAME,
  ),
  move(
    'flame goes out',
    () => true,
    (p) => p & ~FLAME,
  ),
  move(
    'cutback runs into the bucket',
    (p) => has(p, FEED_MOVING),
    (p) => p | IN_BUCKET,
  ),
  move(
    'bucket runs empty',
    (p) => has(p, VALVE_OPEN),
    (p) => p & ~IN_BUCKET,
  ),
  move(
    'binder valve opens',
    (p) => has(p, VALVE_MOVING),
    (p) => p | VALVE_OPEN,
  ),
  move(
    'binder valve closes',
    (p) => !has(p, VALVE_ASKED),
    (p) => p & ~VALVE_OPEN,
  ),
  move(
    'cutback runs into the pug mill',
    (p) => has(p, VALVE_OPEN) && has(p, IN_BUCKET),
    (p) => p | IN_MIXER,
  ),
  move(
    'pug mill is emptied',
    () => true,
    (p) => p & ~IN_MIXER,
  ),
  move(
    'valves no longer asked for come to rest',
    (p) => has(p, MOVING),
    (p) => (p & ~MOVING) | movingOf(p),
  ),
];

/** Regions this model lets vary; the others stay at their safe side but extraction, which stands for them. */
const VARYING = ['dryer', 'extraction', 'bucket', 'mixer', 'valve'] as const;

/** One sensor stuck at one answer. */
export type Lie = {
  readonly signal: 'flameSeen' | 'fuelShut' | 'binderValveShut';
  readonly says: boolean;
};

export const honestPlantModel = (
  space: InterlockSpace,
  burner: ChartTable,
  rules: GateRules = GATE_RULES,
  lie: Lie | null = null,
): Model => {
  /** What a sensor says, honest or not. */
  const says = (signal: Lie['signal'], truth: boolean): boolean =>
    lie?.signal === signal ? lie.says : truth;
  const burning = (plant: number): boolean =>
    says('flameSeen', has(plant, FLAME)) || !says('fuelShut', !has(plant, FUEL_OPEN));
  const bases = baseWith(VARYING);
  const baseIndex = new Map(bases.map((base, index) => [base, index]));
  const burners = burner.names.length;
  const values = bases.map((base) => [0, 1, 2].map((trip) => stateValueOf(base, trip)));
  const mayFire = values.map((row) => row.map(burnerMayFire));
  const held = burner.values.map(purgeCountHeld);
  const interlockEvent = new Map(INTERLOCK_EVENTS.map((type, index) => [type, index]));
  const burnerEvent = new Map(burner.events.map((type, index) => [type, index]));

  type Now = { base: number; trip: number; burner: number };
  const tellInterlock = (now: Now, type: string): void => {
    const event = interlockEvent.get(type);
    if (event === undefined) return;
    const to = space.follow[event * BASES + now.base] as number;
    now.trip = Math.min(TRIPPED, tripAfter(space, now.base, now.trip, event, to));
    now.base = to;
  };
  const tellBurner = (now: Now, type: string): void => {
    const event = burnerEvent.get(type);
    if (event !== undefined) now.burner = burner.next[now.burner * burner.events.length + event] as number;
  };

  /** Every signal as it stands. */
  const truthOf = (plant: number): readonly (readonly [string, boolean])[] => {
    const solvent = has(plant, FEED_ASKED) || has(plant, IN_BUCKET);
    return [
      ['flameSeen', says('flameSeen', has(plant, FLAME))],
      ['fuelShut', says('fuelShut', !has(plant, FUEL_OPEN))],
      ['fuelAskedOpen', has(plant, FUEL_ASKED)],
      ['purged', has(plant, PURGED)],
      ['cutbackInBucket', solvent],
      ['cutbackInMixer', has(plant, IN_MIXER) || (solvent && (plant & (VALVE_ASKED | VALVE_OPEN)) !== 0)],
      ['binderValveShut', says('binderValveShut', !has(plant, VALVE_OPEN))],
      ['binderValveAskedOpen', has(plant, VALVE_ASKED)],
      ['drumFanProved', true],
    ];
  };

  /** Offers every signal as it stands until nothing moves: what edges and re-offers come to. */
  const hear = (now: Now, plant: number): void => {
    const truth = truthOf(plant);
    for (let round = 0; round < 20; round++) {
      const before = `${now.base} ${now.trip} ${now.burner}`;
      for (const [signal, on] of truth) {
        tellInterlock(now, `${on ? 'on' : 'off'}.${signal}`);
        tellBurner(now, `${on ? 'on' : 'off'}.${signal}`);
      }
      const permitted = mayFire[baseIndex.get(now.base) as number]?.[now.trip] as boolean;
      tellBurner(now, permitted ? 'on.flamePermitted' : 'off.flamePermitted');
      tellBurner(now, now.trip === TRIPPED ? 'on.tripped' : 'off.tripped');
      if (before === `${now.base} ${now.trip} ${now.burner}`) return;
    }
    throw new Error('offering signals did not settle');
  };

  /** What the line lets out after a step: 4 bits asked for from above; the burner's own demand comes on top. */
  const letOut = (now: Now, bits: number): number => {
    const own = burnerDemands(burner.values[now.burner] ?? 'off');
    const value = values[baseIndex.get(now.base) as number]?.[now.trip] ?? '';
    const { outputs } = gate(
      {
        ...AT_REST,
        cutbackFeed: bits & 1 ? 'full' : 'shut',
        bucketValve: (bits & 2) !== 0,
        burnerPilot: (bits & 4) !== 0 || own.burnerPilot,
        burnerMain: own.burnerMain,
      },
      value,
      burner.values[now.burner] ?? 'off',
      TANKS_SAFE,
      rules,
    );
    const fuel = outputs.burnerPilot || outputs.burnerMain !== 'shut';
    const asked =
      (fuel ? FUEL_ASKED : 0) |
      (outputs.cutbackFeed === 'shut' ? 0 : FEED_ASKED) |
      (outputs.bucketValve ? VALVE_ASKED : 0);
    return asked | movingOf(asked);
  };

  const chartEvents = [
    ...burner.events.filter((type) => /^(operator|line|xstate)\./.test(type)),
    ...INTERLOCK_EVENTS.filter((type) => /^(operator|xstate)\./.test(type)),
    'on.extractionProved',
    'off.extractionProved',
  ];
  const steps = [0, 1, 2, 3, 4, 5, 6, 7].map((bits) => {
    const asked = ['cutback feed', 'binder valve', 'pilot'].filter((_, bit) => bits & (1 << bit));
    return `line steps, asked for ${asked.join(' and ') || 'nothing more'}`;
  });
  const events = [...PLANT_MOVES.map((one) => one.name), 'purge completes', ...chartEvents, ...steps];
  const PURGE = PLANT_MOVES.length;
  const FIRST_STEP = PURGE + 1 + chartEvents.length;

  const pack = (now: Now, plant: number): number =>
    (((baseIndex.get(now.base) as number) * 3 + now.trip) * burners + now.burner) * PLANT + plant;
  const nowOf = (state: number): Now => {
    const rest = Math.floor(state / PLANT);
    const interlock = Math.floor(rest / burners);
    return {
      base: bases[Math.floor(interlock / 3)] as number,
      trip: interlock % 3,
      burner: rest % burners,
    };
  };

  // The same charts hear the same plant many times over, and ask the gate the same: worked out once.
  const heardBefore = new Map<number, number>();
  const heardFrom = (key: number, now: Now, plant: number): number => {
    const known = heardBefore.get(key);
    if (known !== undefined) return known;
    hear(now, plant);
    const heard = Math.floor(pack(now, 0) / PLANT);
    heardBefore.set(key, heard);
    return heard;
  };
  const letOutBefore = new Map<number, number>();
  const letOutOnce = (key: number, now: Now, bits: number): number => {
    const known = letOutBefore.get(key);
    if (known !== undefined) return known;
    const asked = letOut(now, bits);
    letOutBefore.set(key, asked);
    return asked;
  };

  const start: Now = { base: bases[bases.length - 1] as number, trip: WATCHING, burner: 0 };
  return {
    name:
      lie === null ? 'honest plant, hostile demands' : `plant whose ${lie.signal} always says ${lie.says}`,
    size: bases.length * 3 * burners * PLANT,
    start: pack(start, PURGED),
    events,
    next: (state, event) => {
      const plant = state % PLANT;
      const plantMove = PLANT_MOVES[event];
      if (plantMove !== undefined) return plantMove.if(plant) ? state - plant + plantMove.to(plant) : -1;
      const now = nowOf(state);
      // A purge takes minutes and a valve seconds: by its end every valve no longer asked for is shut and at rest,
      // and a flame whose fuel is shut is out, seen or not.
      if (event === PURGE)
        return burning(plant) ||
          held[now.burner] ||
          has(plant, FUEL_OPEN | FUEL_ASKED) ||
          (plant & MOVING) !== movingOf(plant)
          ? -1
          : state - plant + ((plant & ~FLAME) | PURGED);
      if (event < FIRST_STEP) {
        const type = events[event] as string;
        tellInterlock(now, type);
        tellBurner(now, type);
        return pack(now, plant);
      }
      const unpurged = burning(plant) || has(plant, FUEL_ASKED) || held[now.burner];
      const counted = unpurged ? plant & ~PURGED : plant;
      const heard = heardFrom(pack(now, counted), now, counted);
      const after = nowOf(heard * PLANT);
      const asked = letOutOnce(heard * 8 + event - FIRST_STEP, after, event - FIRST_STEP);
      return heard * PLANT + ((counted & ~(FUEL_ASKED | FEED_ASKED | VALVE_ASKED)) | asked);
    },
    describe: (state) => {
      const now = nowOf(state);
      const plant = state % PLANT;
      const words = [
        [FLAME, 'flame'],
        [FUEL_OPEN, 'fuel open'],
        [IN_BUCKET, 'cutback in bucket'],
        [IN_MIXER, 'cutback in pug mill'],
        [VALVE_OPEN, 'binder valve open'],
        [PURGED, 'purged'],
        [FUEL_ASKED, 'fuel asked'],
        [FEED_ASKED, 'feed asked'],
        [VALVE_ASKED, 'binder valve asked'],
        [FUEL_MOVING, 'fuel valve moving'],
        [FEED_MOVING, 'feed moving'],
        [VALVE_MOVING, 'binder valve moving'],
      ] as const;
      const truth = words.filter(([bit]) => has(plant, bit)).map(([, word]) => word);
      return `${truth.join(', ') || 'nothing'} · burner ${burner.names[now.burner]} · ${JSON.stringify(stateValueOf(now.base, now.trip))}`;
    },
    charts: (state) => {
      const now = nowOf(state);
      return { interlock: stateValueOf(now.base, now.trip), burner: burner.values[now.burner] as ChartValue };
    },
    offers: (state, event) => {
      if (event < FIRST_STEP) return [];
      const plant = state % PLANT;
      const unpurged = burning(plant) || has(plant, FUEL_ASKED) || held[nowOf(state).burner];
      return truthOf(unpurged ? plant & ~PURGED : plant).map(
        ([signal, on]) => `${on ? 'on' : 'off'}.${signal}`,
      );
    },
    gateAt: (_state, event, to) => {
      if (event < FIRST_STEP) return null;
      const bits = event - FIRST_STEP;
      const own = burnerDemands(burner.values[nowOf(to).burner] ?? 'off');
      const plant = to % PLANT;
      const main = own.burnerMain === 'shut' ? {} : { burnerMain: own.burnerMain };
      const pilot = bits & 4 || own.burnerPilot ? { burnerPilot: true } : {};
      return {
        asked: {
          ...(bits & 1 ? { cutbackFeed: 'full' } : {}),
          ...(bits & 2 ? { bucketValve: true } : {}),
          ...pilot,
          ...main,
        },
        through: {
          ...(has(plant, FEED_ASKED) ? { cutbackFeed: 'full' } : {}),
          ...(has(plant, VALVE_ASKED) ? { bucketValve: true } : {}),
          ...(has(plant, FUEL_ASKED) ? { ...pilot, ...main } : {}),
        },
      };
    },
    rules: [
      {
        id: 'NR-16',
        says: NEVER['NR-16'],
        ofState: true,
        broken: (_from, _event, to) => {
          const plant = to % PLANT;
          return has(plant, FLAME) && (has(plant, IN_BUCKET) || has(plant, IN_MIXER));
        },
      },
    ],
  };
};
