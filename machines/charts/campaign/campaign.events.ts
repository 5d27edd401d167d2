/** What a drying campaign hears: a person's wishes and signals. */
import type { SignalEvent } from '../signals.ts';

export type CampaignEvent =
  | SignalEvent
  | { readonly type: 'operator.startCampaign' }
  | { readonly type: 'operator.acknowledgeCautions' }
  | { readonly type: 'operator.lightBurner' }
  | { readonly type: 'operator.putOutBurner' }
  | { readonly type: 'operator.endCampaign' };
