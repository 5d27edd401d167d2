/** A drying campaign: cautions read, burner lit, charge after charge dried into the holding bin, flame out, cooled. */
import { setup } from 'xstate';
import type { CampaignEvent } from './campaign.events.ts';

export const campaignMachine = setup({ types: { events: {} as CampaignEvent } }).createMachine({
  id: 'campaign',
  initial: 'idle',
  states: {
    idle: {
      meta: { title: 'No drying campaign' },
      on: { 'operator.startCampaign': 'cautions' },
    },
    cautions: {
      meta: {
        title: 'Read the cautions before the dryer is lit',
        instruction: 'Acknowledge the card to go on; it is recorded.',
      },
      on: { 'operator.acknowledgeCautions': 'readyToLight', 'operator.endCampaign': 'idle' },
    },
    readyToLight: {
      meta: {
        title: 'Ready to light the dryer burner',
        instruction: 'Check that nobody is at the drum, then light the burner. It purges by itself first.',
      },
      on: { 'operator.lightBurner': 'lighting', 'operator.endCampaign': 'idle' },
    },
    lighting: {
      meta: {
        title: 'Purging and lighting the burner',
        instruction: 'Air first, then pilot, then main flame.',
      },
      on: {
        'on.burnerRunning': 'charging',
        'on.burnerLockedOut': 'flameLost',
        'on.burnerAtRest': 'flameLost',
        'operator.putOutBurner': 'puttingOut',
        'operator.endCampaign': 'puttingOut',
      },
    },
    charging: {
      meta: {
        title: 'Charging the drum',
        instruction: 'The next charge is weighed while this one dries.',
      },
      on: {
        'on.drumCharged': 'drying',
        'off.burnerRunning': 'flameLost',
        'operator.putOutBurner': 'puttingOut',
        'operator.endCampaign': 'puttingOut',
      },
    },
    drying: {
      meta: { title: 'Drying aggregate', instruction: 'Wait for the outlet temperature.' },
      on: {
        'on.drumDry': 'emptying',
        'off.burnerRunning': 'flameLost',
        'operator.putOutBurner': 'puttingOut',
        'operator.endCampaign': 'puttingOut',
      },
    },
    emptying: {
      meta: { title: 'Emptying the drum into the holding bin' },
      on: {
        // No flame is needed to let out what is dry; the next stage hears that it is gone.
        'on.drumEmpty': 'counting',
        'operator.putOutBurner': 'puttingOut',
        'operator.endCampaign': 'puttingOut',
      },
    },
    counting: {
      meta: { title: 'Counting what is dried' },
      on: { 'on.enoughDried': 'puttingOut', 'off.enoughDried': 'charging' },
    },
    flameLost: {
      meta: {
        title: 'The burner is out',
        instruction:
          'Find out why. Reset the burner if it is locked out, then light again: it purges first. Or end the campaign.',
      },
      on: {
        'on.burnerRunning': 'resuming',
        'operator.endCampaign': 'puttingOut',
      },
    },
    resuming: {
      meta: { title: 'Going on where the flame was lost' },
      on: { 'on.drumLoaded': 'drying', 'off.drumLoaded': 'charging' },
    },
    puttingOut: {
      meta: {
        title: 'Flame out, purging the drum',
        instruction: 'The fan changes the air in the drum. No cutback may be used before.',
      },
      on: { 'on.burnerOff': 'cooling' },
    },
    cooling: {
      meta: {
        title: 'Cooling the dry aggregate',
        instruction: 'Leave the fan on. Batches may be started now; drawing waits for the window.',
      },
      on: {
        'on.holdingBinCool': 'available',
        'on.holdingBinUsed': 'idle',
        'operator.endCampaign': 'runningOut',
      },
    },
    available: {
      meta: {
        title: 'Dry aggregate is ready',
        instruction: 'Start batches while it stays in its window.',
      },
      on: { 'on.holdingBinUsed': 'idle', 'operator.endCampaign': 'runningOut' },
    },
    runningOut: {
      meta: {
        title: 'Running the holding bin out to the waste heap',
        instruction: 'The loader takes away what is left. Then a new campaign may begin.',
      },
      on: { 'on.holdingBinUsed': 'idle' },
    },
  },
});

export type CampaignState =
  | 'idle'
  | 'cautions'
  | 'readyToLight'
  | 'lighting'
  | 'charging'
  | 'drying'
  | 'emptying'
  | 'counting'
  | 'flameLost'
  | 'resuming'
  | 'puttingOut'
  | 'cooling'
  | 'available'
  | 'runningOut';
