/** Heat, fuel and time to dry and warm aggregate (standard heat balance; losses in one efficiency). */
import { STONE_CP_KJ_KG_K, WATER_CP_KJ_KG_K, WATER_LATENT_KJ_KG } from './published.ts';

export type DryingHeat = {
  readonly stoneKj: number;
  /** Warming the water to 100 °C and turning it to steam. */
  readonly waterKj: number;
  readonly usefulKj: number;
  /** What the burner must give: useful over efficiency. */
  readonly firedKj: number;
};

/**
 * Heat in kJ to bring dryKg of stone with moisturePct (of dry mass) from fromC to outC and drive all its water off.
 * Warming the stone beyond 100 °C while water is left, and steam beyond 100 °C, are left out: a few per cent.
 */
export const dryingHeat = (
  dryKg: number,
  moisturePct: number,
  fromC: number,
  outC: number,
  efficiency: number,
): DryingHeat => {
  const waterKg = (dryKg * moisturePct) / 100;
  const stoneKj = dryKg * STONE_CP_KJ_KG_K * (outC - fromC);
  const waterKj = waterKg * (WATER_CP_KJ_KG_K * (100 - fromC) + WATER_LATENT_KJ_KG);
  const usefulKj = stoneKj + waterKj;
  return { stoneKj, waterKj, usefulKj, firedKj: usefulKj / efficiency };
};

export const KJ_PER_KWH = 3600;

export type CampaignPlan = {
  readonly charges: number;
  readonly dryKg: number;
  readonly firedKj: number;
  readonly fuelKg: number;
  /** Time of fire and of everything around it, s. */
  readonly fireS: number;
  readonly aroundS: number;
  readonly kwhPerDryT: number;
};

/**
 * A drying campaign of so many charges. aroundS is what each charge takes beside the fire (weighing in, emptying,
 * settling), lightS what purge and lighting take once. Fire at full burnerKw.
 */
export const campaignPlan = (
  dryKg: number,
  chargeDryKg: number,
  heatPerDryKgKj: number,
  burnerKw: number,
  fuelKjKg: number,
  lightS: number,
  aroundChargeS: number,
): CampaignPlan => {
  const charges = Math.max(1, Math.ceil(dryKg / chargeDryKg - 1e-9));
  const driedKg = charges * chargeDryKg;
  const firedKj = driedKg * heatPerDryKgKj;
  return {
    charges,
    dryKg: driedKg,
    firedKj,
    fuelKg: firedKj / fuelKjKg,
    fireS: firedKj / burnerKw,
    aroundS: lightS + charges * aroundChargeS,
    kwhPerDryT: (1000 * heatPerDryKgKj) / KJ_PER_KWH,
  };
};
