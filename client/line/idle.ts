/** Whether the pug mill is free and nothing burns, so that the next order can be chosen. */
import type { LineView } from '../../machines/line/view.types.ts';

/** Dried aggregate that cools, or lies ready, leaves the line free for something else. */
const CAMPAIGN_AT_REST = ['cooling', 'available'];

/** The dryer is at work, or about to be: its flame is what matters now. */
export const isDrying = (campaign: LineView['campaign']): boolean =>
  campaign !== null && !CAMPAIGN_AT_REST.includes(campaign.step);

export const isIdle = (view: Pick<LineView, 'now' | 'shift' | 'campaign'>): boolean =>
  !view.shift.ended && view.now.procedure === 'idle' && !isDrying(view.campaign);
