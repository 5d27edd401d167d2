/** What the line knows of its binder tanks: kind of heater, contents by paper and by people, deliveries. */
import { HEATER_KINDS, type HeaterKind, type HeaterRules } from '../charts/tank-interlock/heater-kinds.ts';
import { cylinderM3 } from '../mix/cylinder.ts';
import type { PlantSpec } from '../scenario/plant.schema.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import type { Line, Product, TankMemo } from './line.types.ts';

export const PRODUCTS: readonly Product[] = ['emulsion', 'cutback'];
/** A tank is filled to this share of its volume at most, for what heat will add. Common practice, no source. */
const FILL_SHARE = 0.95;
/** Rate of the delivery pump, kg/s. Common practice, no source. */
export const DELIVERY_KG_S = 12;
/** Free water at the bottom from which it counts, mm: less is within the paste's reading. Common practice, no source. */
export const WATER_FOUND_MM = 5;

/** Kind of heater of a tank: its own, or that of the plant's heater. */
export const heaterKindOf = (plant: PlantSpec, tank: Product): HeaterKind =>
  plant.tanks[tank].heater ?? plant.oilHeater.kind;

export const heaterRulesOf = (plant: PlantSpec, tank: Product): HeaterRules =>
  HEATER_KINDS[heaterKindOf(plant, tank)];

/** Product that must stand above the heating surface, mm: the plant file's figure, never less than the kind asks for. */
export const coverNeededMm = (plant: PlantSpec, tank: Product): number =>
  Math.max(plant.tanks[tank].coilCoverMm, heaterRulesOf(plant, tank).coverMm);

export const firstTankMemos = (scenario: Scenario): { readonly [T in Product]: TankMemo } => {
  const memo = (tank: Product): TankMemo => {
    const doubted = scenario.shift.tanks?.[tank]?.confirmed === false;
    return {
      holds: doubted ? 'not known' : tank,
      why: doubted ? 'Not confirmed when the shift began' : 'As handed over',
      delivery: null,
      foamed: false,
    };
  };
  return { emulsion: memo('emulsion'), cutback: memo('cutback') };
};

/** The contents are known to be what the tank is for, and nothing is being added to them. */
export const isTankKnown = (memo: TankMemo, tank: Product): boolean =>
  memo.holds === tank && memo.delivery === null;

/** Room left in a tank, kg, by its dip and density. */
export const roomKg = (line: Line, tank: Product): number => {
  const spec = line.scenario.plant.tanks[tank];
  const dipM = line.readings[`${tank}DipMm`] / 1000;
  const fullM3 = cylinderM3(spec.diameterM, spec.lengthM, spec.diameterM) * FILL_SHARE;
  const heldM3 = cylinderM3(spec.diameterM, spec.lengthM, dipM);
  return Math.max(0, Math.floor((fullM3 - heldM3) * spec.densityAt15KgM3));
};
