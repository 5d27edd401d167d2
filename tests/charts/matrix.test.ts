/**
 * The cause-and-effect matrix against the gate, both ways: every cell does what it says in every state in which
 * its cause holds, and nothing is ever held that no cell speaks of.
 */
import { describe, expect, it } from 'vitest';
import { standingSafeguards } from '../../machines/charts/burner/burner.safeguards.ts';
import {
  SAFEGUARDS,
  TANK_CAUSES,
  TRIPS,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import {
  burnerMayLight,
  type ChartValue,
  latchedCauses,
  standingCauses,
  unmetPermissives,
} from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import {
  causeAndEffect,
  effectsNow,
  isColumnLetThrough,
  MATRIX_COLUMNS,
  type MatrixRow,
} from '../../machines/charts/flame-interlock/matrix.ts';
import { heatBlockedBy } from '../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { gate, type TankValues } from '../../machines/line/gate.ts';
import { burnerTable } from '../explore/charts.ts';
import { FREES, freeOf } from '../explore/free-regions.ts';
import { BASES, SAFEST_BASE, STARTING, stateValueOf, TRIPPED, WATCHING } from '../explore/interlock-space.ts';
import { INTERLOCK_SAFE, TANK_SAFE, TANK_VALUES, TANKS_SAFE } from '../explore/tank-models.ts';

const ALL: Outputs = {
  ...AT_REST,
  bin1Gate: 'full',
  bin2Gate: 'full',
  bin3Gate: 'full',
  bin4Gate: 'full',
  hopperTo: 'dryer',
  holdingGate: 'full',
  emulsionFeed: 'full',
  bucketValve: true,
  waterValve: true,
  antiStripPump: true,
  drumTurn: true,
  drumDischarge: true,
  pugMill: true,
  mixerGate: true,
  belt: true,
  hoodFan: false,
  oilBurner: true,
  emulsionCoil: true,
  cutbackCoil: true,
};
/** A flame and a way are never let through together, so they are asked for apart. */
const WANTS: readonly Outputs[] = [
  { ...ALL, cutbackFeed: 'full' },
  ALL,
  { ...ALL, bucketValve: false, burnerPilot: true, burnerMain: 'high' },
  { ...ALL, bucketValve: false, burnerMain: 'high' },
];

/** Columns some demand gets through, as bits. Emulsion through the binder valve is nobody's business here. */
const throughBits = (value: ChartValue, burner: ChartValue, tanks: TankValues): number => {
  let bits = 0;
  for (const wanted of WANTS) {
    const { outputs } = gate(wanted, value, burner, tanks);
    const solvent = wanted.cutbackFeed !== 'shut' || (value as { bucket?: string }).bucket !== 'noCutback';
    MATRIX_COLUMNS.forEach((column, place) => {
      if (!isColumnLetThrough(column, outputs, AT_REST)) return;
      if (column.id === 'binder' && !solvent) return;
      bits |= 1 << place;
    });
  }
  return bits;
};

const FIRING: ChartValue = { running: { fire: 'high', flame: 'seen' } };
const ROWS = new Map(causeAndEffect.map((row) => [row.id as string, row]));
/** Columns a cause acts on whenever it holds, as bits; what is asked for only to light is left out of the first. */
const bitsOf = (row: MatrixRow, toLightToo: boolean): number =>
  MATRIX_COLUMNS.reduce((bits, { id }, place) => {
    const effect = row.effects[id];
    const always = effect !== undefined && !(effect === 'keeps shut' && row.group === 'permissive');
    return always || (toLightToo && effect !== undefined) ? bits | (1 << place) : bits;
  }, 0);
const ALWAYS = new Map([...ROWS].map(([id, row]) => [id, bitsOf(row, false)]));
const EVER = new Map([...ROWS].map(([id, row]) => [id, bitsOf(row, true)]));
const COLUMNS = (1 << MATRIX_COLUMNS.length) - 1;

const seen = new Set<string>();
/** A cell that does not do what it says, and an element held that no cell speaks of. */
const idle: string[] = [];
const unspoken: string[] = [];

const judge = (value: ChartValue, burner: ChartValue, tanks: TankValues): void => {
  const standing = standingCauses(value).filter((id) => id === 'FT-07' || id === 'FT-11');
  const holding = [
    ...unmetPermissives(value),
    ...latchedCauses(value),
    ...standing,
    ...standingSafeguards(burner),
    ...heatBlockedBy('emulsion', tanks.emulsion),
    ...heatBlockedBy('cutback', tanks.cutback),
  ];
  const through = throughBits(value, burner, tanks);
  let spoken = 0;
  for (const id of holding) {
    seen.add(id);
    spoken |= EVER.get(id) ?? 0;
    if (((ALWAYS.get(id) ?? 0) & through) !== 0 && idle.length < 5)
      idle.push(`${id} ${JSON.stringify(value)}`);
  }
  const held = COLUMNS & ~through & ~spoken;
  // An emulsion alone in the bucket: the binder column is about solvent, which nobody asked to let through.
  if (held !== 0 && unspoken.length < 5) unspoken.push(`${held} ${JSON.stringify([value, burner, tanks])}`);
};

const lightsAllTheSame: string[] = [];
for (let base = 0; base < BASES; base++)
  for (const trip of [STARTING, WATCHING, TRIPPED + 1]) {
    const value = stateValueOf(base, trip);
    judge(value, FIRING, TANKS_SAFE);
    if (unmetPermissives(value).some((id) => id === 'FI-13' || id === 'FI-18') && burnerMayLight(value))
      lightsAllTheSame.push(JSON.stringify(value));
  }
for (let bits = 0; bits < FREES; bits++)
  judge(stateValueOf(SAFEST_BASE, WATCHING, freeOf(bits)), FIRING, TANKS_SAFE);
TRIPS.forEach((_trip, index) => {
  for (const base of [SAFEST_BASE, 0, ...Array.from({ length: 170 }, (_, n) => n * 101)])
    judge(stateValueOf(base, TRIPPED + index), FIRING, TANKS_SAFE);
});
for (const burner of burnerTable().values) if (burner !== 'off') judge(INTERLOCK_SAFE, burner, TANKS_SAFE);
for (const tank of ['emulsion', 'cutback'] as const)
  for (const value of TANK_VALUES) judge(INTERLOCK_SAFE, FIRING, { ...TANKS_SAFE, [tank]: value });

describe('cause-and-effect matrix', () => {
  it('every cell does what it says, in every state in which its cause holds', () => {
    expect(idle).toEqual([]);
    expect([...seen].sort()).toEqual([...ROWS.keys()].sort());
  });

  it('nothing is held that no cell speaks of: in every state each held element has a cause with an effect on it', () => {
    expect(unspoken).toEqual([]);
  });

  it('what is asked for to light keeps the burner from being lit', () => {
    expect(lightsAllTheSame).toEqual([]);
  });

  it('with nothing against it everything goes through', () => {
    expect(
      throughBits({ ...(INTERLOCK_SAFE as object), bucket: 'noCutback' } as ChartValue, FIRING, TANKS_SAFE),
    ).toBe((1 << MATRIX_COLUMNS.length) - 1);
    expect(TANK_SAFE).toBeTypeOf('object');
  });

  it('has a row for every cause and a column for every output that is ever held', () => {
    expect(causeAndEffect).toHaveLength(23 + TRIPS.length + SAFEGUARDS.length + TANK_CAUSES.length);
    const keys = MATRIX_COLUMNS.flatMap((one) => one.keys);
    expect(new Set(keys).size).toBe(keys.length);
    const held = gate({ ...ALL, cutbackFeed: 'full', burnerPilot: true, burnerMain: 'low' }, '', '', {
      emulsion: '',
      cutback: '',
    }).held.map((one) => one.key);
    for (const key of held) expect(keys).toContain(key);
  });

  it('says which elements are acted on now, the gravest effect first', () => {
    expect(effectsNow([], [])).toEqual([]);
    const now = effectsNow(['FI-04', 'FI-14'], ['FT-02']);
    expect(now.find((one) => one.column === 'binder')).toEqual({
      column: 'binder',
      effect: 'trips',
      causes: ['FI-04', 'FT-02'],
    });
    expect(now.find((one) => one.column === 'hood')?.effect).toBe('keeps running');
    expect(effectsNow(['TE-04'], [])).toEqual([
      { column: 'emulsionCoil', effect: 'shuts', causes: ['TE-04'] },
    ]);
  });
});
