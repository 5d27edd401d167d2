/** Rules a store begins with; people set their own. Every figure says where it is from. */
import type { Rule, StoreId } from './state.types.ts';

/** % of what was weighed out: accuracy of batch proportioning scales, Iowa IM 514. */
const SCALE_PCT = 0.5;
/** mm a dip is read to, either way. From memory. */
export const DIP_READ_MM = 3;

const BINDER: Rule = {
  leadDays: 5, // common practice, no source
  reserveDays: 2, // common practice, no source
  orderKg: 8000, // invented for the demonstration: one small tanker
  lossPct: SCALE_PCT,
  // Days; emulsion settles and skins in the tank: a month or two, from memory. Supplier's figure comes first.
  keepsDays: 60,
};

export const ruleFor = (id: StoreId): Rule => {
  if (id === 'tank:emulsion') return BINDER;
  if (id === 'tank:cutback') return { ...BINDER, keepsDays: null };
  // Common practice, no source; liquid amine additives keep about a year, from memory.
  if (id === 'additive:anti-strip')
    return { leadDays: 14, reserveDays: 5, orderKg: 200, lossPct: 3, keepsDays: 365 };
  // Heaps are measured by eye and wheel loader: common practice, no source.
  return { leadDays: 3, reserveDays: 2, orderKg: 40_000, lossPct: 3, keepsDays: null };
};

/** Days a lot may lie by its family. Cutback: IRC:116, at least 6 months. Emulsion: 1 to 3 months, from memory. */
export const SHELF_DAYS = { cutback: 183, emulsion: 60 } as const;
