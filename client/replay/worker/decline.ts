/** Whether this program may run a record again: only one that decides as the program that wrote it did. */
import type { OpeningBody } from '../../../machines/record/entry.ts';
import { PHYSICS_VERSION, PROGRAM, RECORD_FORMAT } from '../../../machines/record/version.ts';

/** Why the charts are not run again over a record, in a sentence; null when they are. */
export const whyDeclined = (opening: OpeningBody | null, brokenAt: string | null): string | null => {
  if (opening === null) return 'It has no opening entry, so it is not known what wrote it.';
  if (opening.format !== RECORD_FORMAT)
    return `Its entries are of form ${opening.format}; this program knows form ${RECORD_FORMAT}.`;
  if (opening.program !== PROGRAM || opening.physics !== PHYSICS_VERSION)
    return `It was written by ${opening.program} with rules ${opening.physics}; this is ${PROGRAM} with rules ${PHYSICS_VERSION}, which may decide otherwise. Open it in the version that wrote it.`;
  if (brokenAt !== null) return `Its readings do not follow each other: ${brokenAt}.`;
  return null;
};
