/** Which of the two ways through the plant is in use: straight to the pug mill, or by way of the dryer. */
import type { LineView } from '../../machines/line/view.types.ts';

export type Family = 'emulsion' | 'cutback';

/** The family being made: a drying campaign, the open lot and the chosen order say so, in that order. */
export const familyInUse = (view: LineView): Family | null => {
  if (view.campaign !== null) return 'cutback';
  const chosen = view.orders.find((order) => order.chosen);
  if (chosen !== undefined) return chosen.family;
  return view.lots.find((lot) => lot.state === 'open')?.family ?? null;
};

/** The bay mix goes to now: where the running belt lays it, else the chosen order's; 0 is the waste skip. */
export const bayInUse = (view: LineView): number | null => {
  if (view.plant.outputs.belt) return view.plant.outputs.beltToBay;
  return view.orders.find((order) => order.chosen)?.bay ?? null;
};
