/** Who may ask what of the patches book. */
import type { Role } from '../../scenario/people.schema.ts';
import type { PatchesCommand } from './commands.ts';

const PLANNERS: readonly Role[] = ['supervisor', 'storekeeper', 'operator', 'trainer', 'trainee'];
const SUPERVISORS: readonly Role[] = ['supervisor', 'trainer'];

export const PATCHES_PERMISSIONS: { readonly [K in PatchesCommand['do']]: readonly Role[] } = {
  takeList: PLANNERS,
  changePatch: PLANNERS,
  takeOutPatch: PLANNERS,
  putBackPatch: PLANNERS,
  takeBackList: PLANNERS,
  finishList: PLANNERS,
  changeBasis: SUPERVISORS,
  makeOrder: PLANNERS,
  changeOrder: PLANNERS,
  withdrawOrder: PLANNERS,
  putBackOrder: PLANNERS,
  deliverOrder: PLANNERS,
  arrangeWeek: PLANNERS,
  setHours: PLANNERS,
};
