/** What each stage of a campaign asks of the plant, and questions the line asks about it. */
import type { Outputs } from '../../field/outputs.ts';
import type { CampaignState } from './campaign.machine.ts';

const USES_HOPPER: ReadonlySet<CampaignState> = new Set<CampaignState>([
  'readyToLight',
  'lighting',
  'charging',
  'drying',
  'emptying',
  'counting',
  'flameLost',
  'resuming',
  'puttingOut',
]);

export const campaignUsesHopper = (state: CampaignState): boolean => USES_HOPPER.has(state);

/** Stages in which the next charge may be weighed up. */
export const mayWeighCharge = (state: CampaignState): boolean =>
  state === 'lighting' ||
  state === 'charging' ||
  state === 'drying' ||
  state === 'emptying' ||
  state === 'counting';

export const wantsHighFire = (state: CampaignState): boolean => state === 'drying';

/** `hopperReady`: the next charge is weighed; the drum keeps turning with stone in it. */
export const campaignDemands = (
  state: CampaignState,
  hopperReady: boolean,
  drumLoaded: boolean,
  coolingWanted: boolean,
): Partial<Outputs> => {
  switch (state) {
    case 'charging':
      return { drumTurn: true, hopperTo: hopperReady ? 'dryer' : 'shut' };
    case 'drying':
      return { drumTurn: true };
    case 'emptying':
      return { drumTurn: true, drumDischarge: true };
    case 'lighting':
    case 'counting':
    case 'flameLost':
    case 'resuming':
      return { drumTurn: drumLoaded };
    case 'puttingOut':
      return { drumTurn: drumLoaded, drumDischarge: drumLoaded };
    case 'cooling':
    case 'available':
      return { coolingFan: coolingWanted, drumTurn: drumLoaded, drumDischarge: drumLoaded };
    default:
      return {};
  }
};
