/** What people ask for in a random history: work that pushes on, and anybody's whims. */
import type { Command } from '../../machines/line/commands.ts';

export const WORK: readonly Command[] = [
  { do: 'takeControls' },
  { do: 'chooseOrder', order: 2 },
  { do: 'startCampaign', batches: 2 },
  { do: 'acknowledgeCautions' },
  { do: 'lightBurner' },
  { do: 'start', batches: 2 },
  { do: 'restart' },
  { do: 'topUp' },
  { do: 'confirmLook' },
  { do: 'resetTrip' },
  { do: 'resetBurner' },
  { do: 'resetHeater' },
];
export const WHIMS: readonly Command[] = [
  { do: 'chooseOrder', order: 1 },
  { do: 'hold' },
  { do: 'stop' },
  { do: 'abort' },
  { do: 'reset' },
  { do: 'extendMix' },
  { do: 'dump', reason: 'somebody said so' },
  { do: 'acceptWeight', reason: 'somebody said so' },
  { do: 'putOutBurner' },
  { do: 'endCampaign' },
  { do: 'heatTank', tank: 'cutback', on: false },
  { do: 'heatTank', tank: 'cutback', on: true },
  { do: 'heatTank', tank: 'emulsion', on: true },
  { do: 'takeSample' },
  { do: 'refillBin', bin: 2 },
  { do: 'emergencyStop' },
  { do: 'releaseEmergencyStop' },
];
