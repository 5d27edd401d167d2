/** The usual cautions before cutback is used, in our own words; local codes and the supplier's sheet come first. */
export const CAUTIONS: readonly string[] = [
  'This binder is used above its flash point: its vapour can burn. No flame, no smoking, no sparks near the mixer, the tank vents or fresh mix.',
  'The dryer flame must be out and the drum purged before any cutback is let into the bucket or the mixer.',
  'Keep the hood fan on the whole time, and after the last batch until the vapour reading is low.',
  'Hot binder burns: face shield, heat-proof gloves, long sleeves, boots. Cool a burn with water and leave the binder on the skin for the doctor.',
  'Keep water out of hot binder: it foams over. Never open a hatch over a steaming tank.',
  'Know where the dry-powder or foam extinguisher and the emergency stop are, now.',
  'Local codes, the binder supplier’s safety sheet and licensed practice come first. This program is not a safety-rated controller.',
];
