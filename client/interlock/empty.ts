/** What the interlock pages show before the line has told anything. */
import type { CausesView, MaintenanceView } from '../../machines/line/view.types.ts';

export const NO_CAUSES: CausesView = { holding: [], latched: [] };
export const NO_UPKEEP: MaintenanceView = { proofs: [], overdue: 0, banner: [] };
