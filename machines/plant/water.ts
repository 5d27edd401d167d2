/** Pre-wet water from the main, through its meter (1 kg counted as 1 L). */
export {
  type MeteredFlow as WaterLine,
  NO_FLOW as NO_WATER,
  stepMeteredFlow as stepWater,
} from './metered-flow.ts';

/** Temperature of water from the main, °C (common practice, no source). */
export const MAIN_WATER_C = 14;
