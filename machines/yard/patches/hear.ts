/** How the patches book changes with what it hears. */
import type { Heard } from '../../record/book.types.ts';
import type { PatchesFact } from './facts.ts';
import { hearOwn } from './hear-facts.ts';
import { hearLine, hearOpening, hearStock } from './hear-others.ts';
import type { PatchesState } from './state.ts';

export const hearPatches = (state: PatchesState, heard: Heard): PatchesState => {
  switch (heard.from) {
    case 'opening':
      return hearOpening(state, heard.scenario);
    case 'line':
      return hearLine(state, heard.fact);
    case 'patches':
      return hearOwn(state, heard.fact as PatchesFact, heard);
    case 'stock':
      return hearStock(state, heard.fact, heard);
    default:
      return state;
  }
};
