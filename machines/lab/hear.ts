/** The fold of the lab book: what the line tells about lots and samples, and what the lab itself told. */
import type { Heard } from '../record/book.types.ts';
import type { LabFact } from './facts.ts';
import { hearLabFact } from './hear-lab.ts';
import { hearLine } from './hear-line.ts';
import { hearOpening } from './hear-opening.ts';
import type { LabState } from './state.ts';

export const hearLab = (state: LabState, heard: Heard): LabState => {
  if (heard.from === 'opening') return hearOpening(state, heard.scenario, heard);
  if (heard.from === 'line') return hearLine(state, heard.fact, heard);
  if (heard.from === 'lab') return hearLabFact(state, heard.fact as LabFact, heard.by, heard.at);
  return state;
};
