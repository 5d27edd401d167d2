/** What a tonne of mix costs, and the energy and carbon dioxide in it, from factors that a person may change. */
import { dryingHeat, KJ_PER_KWH } from '../../mix/drying-heat.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import type { PlantSpec } from '../../scenario/plant.schema.ts';
import type { BinFigures } from './bins.ts';
import type { Conditions } from './conditions.ts';
import type { Factors } from './factors.ts';
import type { WeightsSheet } from './weights-sheet.ts';

export type CostLine = {
  readonly what: string;
  /** Per tonne of mix as it leaves the mixer. */
  readonly amount: number;
  readonly unit: 'kg' | 'kWh' | 'L' | 't';
  readonly cost: number;
  readonly energyMj: number;
  readonly co2Kg: number;
};

export type CostSheet = {
  readonly lines: readonly CostLine[];
  readonly cost: number;
  readonly energyMj: number;
  readonly co2Kg: number;
};

const HOURS_A_DAY = 24;
/** Of heat in the fuel, what the oil heater brings into its oil (common practice, no source). */
const OIL_HEATER_EFFICIENCY = 0.85;

/** Heat for one tonne of mix, kJ in fuel or current: of the dryer, and of the tank that is kept warm all day. */
const heatKj = (mix: Mix, plant: PlantSpec, dryKg: number, moisturePct: number, at: Conditions) => {
  const tank = plant.tanks[mix.family];
  const overK = Math.max(0, mix.windows.tankSetC - at.airC);
  const tankDayKj = (tank.lossWPerK * overK * HOURS_A_DAY * KJ_PER_KWH) / 1000;
  return {
    dryer:
      mix.drying === undefined
        ? 0
        : dryingHeat(dryKg, moisturePct, at.stoneC, mix.drying.outC, plant.dryer.efficiency).firedKj,
    tank: tankDayKj / at.tonnesPerDay,
  };
};

/** Per tonne of mix. moisturePct: of the blend in the cold bins. */
export const costSheet = (
  mix: Mix,
  plant: PlantSpec,
  bins: readonly BinFigures[],
  { targets }: WeightsSheet,
  moisturePct: number,
  at: Conditions,
  factors: Factors,
): CostSheet => {
  const perT = 1000 / targets.totalKg;
  const dryKg = targets.dryKg * perT;
  const lines: CostLine[] = [];
  for (const part of mix.aggregates) {
    const bin = bins.find((one) => one.bin === part.bin);
    if (bin === undefined) continue;
    const ownKg = (dryKg * part.dryPct) / 100;
    const wetKg = ownKg * (1 + bin.moisturePct / 100);
    const reclaimed = bin.kind === 'reclaimed';
    lines.push({
      what: `Bin ${bin.bin}, ${bin.name}, as delivered`,
      amount: wetKg,
      unit: 'kg',
      cost: (wetKg / 1000) * (reclaimed ? factors.reclaimedPricePerT : factors.stonePricePerT),
      energyMj: 0,
      co2Kg: (ownKg / 1000) * (reclaimed ? factors.reclaimedCo2KgPerT : factors.stoneCo2KgPerT),
    });
  }
  const binderKg = targets.binderKg * perT;
  lines.push({
    what: mix.binder.grade,
    amount: binderKg,
    unit: 'kg',
    cost:
      (binderKg / 1000) * (mix.family === 'emulsion' ? factors.emulsionPricePerT : factors.cutbackPricePerT),
    energyMj: 0,
    co2Kg:
      (binderKg / 1000) * (mix.binder.residueMassPct / 100) * factors.residueCo2KgPerT +
      binderKg * (mix.binder.solventMassPct / 100) * factors.solventCo2KgPerKg,
  });
  const antiStripKg = targets.antiStripKg * perT;
  if (antiStripKg > 0)
    lines.push({
      what: 'Anti-strip agent',
      amount: antiStripKg,
      unit: 'kg',
      cost: antiStripKg * factors.antiStripPricePerKg,
      energyMj: 0,
      co2Kg: 0,
    });
  const heat = heatKj(mix, plant, dryKg, moisturePct, at);
  const fuelLine = (what: string, kj: number): CostLine => {
    const litres = kj / (factors.fuelMjPerKg * 1000) / factors.fuelKgPerL;
    const energyMj = kj / 1000;
    return {
      what,
      amount: litres,
      unit: 'L',
      cost: litres * factors.fuelPricePerL,
      energyMj,
      co2Kg: energyMj * factors.fuelCo2KgPerMj,
    };
  };
  const powerLine = (what: string, kwh: number): CostLine => ({
    what,
    amount: kwh,
    unit: 'kWh',
    cost: kwh * factors.powerPricePerKwh,
    energyMj: kwh * 3.6,
    co2Kg: kwh * factors.powerCo2KgPerKwh,
  });
  if (heat.dryer > 0) lines.push(fuelLine('Fuel of the dryer', heat.dryer));
  lines.push(
    plant.oilHeater.kind === 'electric'
      ? powerLine('Keeping the tank warm', heat.tank / KJ_PER_KWH)
      : fuelLine('Keeping the tank warm', heat.tank / OIL_HEATER_EFFICIENCY),
    powerLine('Electricity', factors.powerKwhPerT),
    { what: 'Labour', amount: 1, unit: 't', cost: factors.labourPerT, energyMj: 0, co2Kg: 0 },
  );
  const total = (of: (line: CostLine) => number) => lines.reduce((sum, line) => sum + of(line), 0);
  return {
    lines,
    cost: total((line) => line.cost),
    energyMj: total((line) => line.energyMj),
    co2Kg: total((line) => line.co2Kg),
  };
};
