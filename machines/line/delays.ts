/** How long each delay named by a chart lasts on this line. */
import type { ChartId, Line } from './line.types.ts';
import { TICK_MS } from './line.types.ts';
import { presentMix } from './lookup.ts';

/** Scale settling after the gate shuts, s. Common practice, no source. */
const SETTLE_S = 3;
/** Gates and valves have closed, s. */
const QUIET_S = 2;
/** The belt has run clear behind the last of the mix, s. */
const CLEAR_OUT_S = 6;

/** After the burner's own response the fuel valve has this long to be proved shut, s. Common practice, no source. */
const FUEL_TRAVEL_S = 3;

const seconds = (line: Line, chart: ChartId, name: string, chartMs: number): number => {
  const { dryer } = line.scenario.plant;
  switch (name) {
    case 'settle':
      return SETTLE_S;
    case 'quiet':
      return QUIET_S;
    case 'clearOut':
      return CLEAR_OUT_S;
    case 'preWetMix':
      return presentMix(line).times.preWetMixS;
    case 'binderMix':
      return presentMix(line).times.binderMixS;
    case 'extraMix':
      return presentMix(line).times.extraMixS;
    case 'trialForIgnition':
      return dryer.trialS;
    case 'flameMissing':
      return dryer.flameFailureS + FUEL_TRAVEL_S;
    case 'flameFailure':
      return dryer.flameFailureS;
    case 'shelved':
      return 60 * (line.shelveMinutes[chart.slice('alarm:'.length)] ?? 10);
    default:
      if (chartMs > 0) return chartMs / 1000;
      throw new Error(`chart ${chart} waits for a delay nobody sized: ${name}`);
  }
};

/** Ticks of a named delay; `chartMs` is what the chart itself says, used where plant and mix files say nothing. */
export const delayTicks = (line: Line, chart: ChartId, name: string, chartMs: number): number =>
  Math.max(1, Math.round((seconds(line, chart, name, chartMs) * 1000) / TICK_MS));
