/**
 * Published numbers the arithmetic and the simulated plant lean on, each with its source.
 * "From memory" means: generally known, not confirmed in a document; a default, never a sole oracle.
 */
export { EMULSION_MAX_C } from '../scenario/emulsion-limits.ts';

/** kJ/kg·K, basalt and calcite; handbook table of specific heats of solids (granite 0.79). */
export const STONE_CP_KJ_KG_K = 0.84;
/** kJ/kg·K, steam tables (from memory). */
export const WATER_CP_KJ_KG_K = 4.186;
/** kJ/kg at 100 °C, steam tables (from memory). */
export const WATER_LATENT_KJ_KG = 2257;
/** Vol %, NIOSH Pocket Guide, kerosene; taken for the solvent of the cutback and for the vapour of fuel oil. */
export const KEROSENE_LEL_VOL_PCT = 0.7;
/** Vol %, NIOSH Pocket Guide, kerosene. */
export const KEROSENE_UEL_VOL_PCT = 5;
/** Specific gravity, NIOSH Pocket Guide, kerosene. */
export const KEROSENE_SG = 0.81;
/** mmHg at 100 °F, NIOSH Pocket Guide, kerosene. */
export const KEROSENE_VAPOUR_MMHG_AT_100F = 5;
/** °C, ASTM D2027 / AASHTO M 82 Table 1, MC-800, Tag open cup, minimum (150 °F). */
export const MC800_FLASH_MIN_C = 66;
/** mm²/s at 60 °C, ASTM D2027 / AASHTO M 82 Table 1, MC-800. */
export const MC800_VISCOSITY_60C_MM2_S = { from: 800, to: 1600 } as const;

/** °F, mixing temperature windows, UFC 3-250-03 Table 6-8. */
export const MIXING_WINDOWS_F = {
  'MS-2': { fromF: 100, toF: 160 },
  'SS-1': { fromF: 75, toF: 130 },
  'MC-70': { fromF: 100, toF: 135 },
  'MC-250': { fromF: 135, toF: 175 },
  'MC-800': { fromF: 170, toF: 205 },
} as const;

/** °F and % by dry mass, aggregate at mixing, US federal-type road specification section 404.03. */
export const AGGREGATE_LIMITS = {
  cutback: { fromF: 60, toF: 225, moistureMaxPct: 3 },
  emulsion: { fromF: 50, toF: 175 },
} as const;

/** kWh per tonne of mix for each +1 % aggregate moisture, measured in a batch-plant field study. */
export const MEASURED_DRYING_KWH_T_PER_PCT = 6.86;
/** °C (212 °F), the hottest a surface that heats stored emulsion may be; emulsion makers' association (AEMA) storage advice. */
export const EMULSION_HEATING_SURFACE_MAX_C = 100;
/** kg/mol of n-undecane (from memory; follows from C11H24). */
export const UNDECANE_KG_MOL = 0.15631;
/** kJ/mol, net heat of combustion of n-undecane (from memory; decane's 6294.2 and one more CH2). */
export const UNDECANE_COMBUSTION_KJ_MOL = 6909;
/** kJ/kg, lower heating value of light fuel oil (from memory). */
export const FUEL_OIL_LHV_KJ_KG = 42_600;

/** °C of a temperature in °F (definition). */
export const celsiusOf = (tempF: number): number => ((tempF - 32) * 5) / 9;
