/** The cards of cautions that must be read before the dryer is lit. */
import type { Mix } from '../../scenario/mix.schema.ts';
import type { NowView } from '../view.types.ts';

/** The usual cautions before cutback is used, in our own words; local codes and the supplier's sheet come first. */
const CUTBACK: readonly string[] = [
  'This binder is used above its flash point: its vapour can burn. No flame, no smoking, no sparks near the mixer, the tank vents or fresh mix.',
  'The dryer flame must be out and the drum purged before any cutback is let into the bucket or the mixer.',
  'Keep the hood fan on the whole time, and after the last batch until the vapour reading is low.',
  'Hot binder burns: face shield, heat-proof gloves, long sleeves, boots. Cool a burn with water and leave the binder on the skin for the doctor.',
  'Keep water out of hot binder: it foams over. Never open a hatch over a steaming tank.',
  'Know where the dry-powder or foam extinguisher and the emergency stop are, now.',
  'Local codes, the binder supplier’s safety sheet and licensed practice come first. This program is not a safety-rated controller.',
];

/** The same for a flame without cutback: warming aggregate for emulsion. */
const EMULSION: readonly string[] = [
  'The dryer is lit for this. Nobody at the drum, no loose clothing, know where extinguisher and emergency stop are, now.',
  'Cutback has no business near the dryer while it is lit; its tank vents and its bucket stay shut.',
  'Aggregate leaves the drum hot: do not open hatches, do not reach in. Steam scalds.',
  'Emulsion is never heated above 85 °C and never let freeze: it breaks in the tank and is spoilt.',
  'Local codes, the binder supplier’s safety sheet and licensed practice come first. This program is not a safety-rated controller.',
];

/** The card for a campaign of this mix. */
export const cautionsFor = (mix: Mix): NonNullable<NowView['cautions']> =>
  mix.family === 'cutback'
    ? { title: 'Before cutback: read this aloud', lines: CUTBACK }
    : { title: 'Before the dryer is lit: read this aloud', lines: EMULSION };
