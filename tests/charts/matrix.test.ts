/**
 * The cause-and-effect matrix against the gate: every cell does what it says in every state in which its cause
 * holds, and an empty cell is empty because the element goes free in at least one such state.
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

/** For each cause: columns that got through in some state in which it holds. */
const through = new Map<string, number>();
const note = (ids: readonly string[], bits: number): void => {
  for (const id of ids) through.set(id, (through.get(id) ?? 0) | bits);
};

const FIRING: ChartValue = { running: { fire: 'high', flame: 'seen' } };
const lightsAllTheSame: string[] = [];

for (let base = 0; base < BASES; base++)
  for (const trip of [STARTING, WATCHING, TRIPPED + 1]) {
    const value = stateValueOf(base, trip);
    const unmet = unmetPermissives(value);
    note(unmet, throughBits(value, FIRING, TANKS_SAFE));
    if (unmet.some((id) => id === 'FI-13' || id === 'FI-18') && burnerMayLight(value))
      lightsAllTheSame.push(JSON.stringify(value));
  }
for (let bits = 0; bits < FREES; bits++) {
  const value = stateValueOf(SAFEST_BASE, WATCHING, freeOf(bits));
  note(unmetPermissives(value), throughBits(value, FIRING, TANKS_SAFE));
}
TRIPS.forEach(({ id }, index) => {
  for (const base of [SAFEST_BASE, 0, ...Array.from({ length: 170 }, (_, n) => n * 101)])
    note([id], throughBits(stateValueOf(base, TRIPPED + index), FIRING, TANKS_SAFE));
});
for (const burner of burnerTable().values)
  note(standingSafeguards(burner), throughBits(INTERLOCK_SAFE, burner, TANKS_SAFE));
for (const tank of ['emulsion', 'cutback'] as const)
  for (const value of TANK_VALUES)
    note(heatBlockedBy(tank, value), throughBits(INTERLOCK_SAFE, FIRING, { ...TANKS_SAFE, [tank]: value }));

const gotThrough = (row: MatrixRow): readonly string[] =>
  MATRIX_COLUMNS.filter((_, place) => ((through.get(row.id) ?? 0) & (1 << place)) !== 0).map((one) => one.id);

describe('cause-and-effect matrix', () => {
  it.each(causeAndEffect.map((row) => [row.id, row] as const))(
    '%s: every cell is what the gate does',
    (id, row) => {
      expect(through.has(id), 'its cause holds in some state').toBe(true);
      const free = MATRIX_COLUMNS.map((one) => one.id).filter((column) => {
        const effect = row.effects[column];
        // FI-13 and FI-18 are asked for to light; once the burner fires they are not asked for.
        return effect === undefined || (effect === 'keeps shut' && row.group === 'permissive');
      });
      expect(gotThrough(row)).toEqual(free);
    },
  );

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
