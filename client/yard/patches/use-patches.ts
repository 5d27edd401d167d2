/** The patches book at this console. */
import { PATCHES_PERMISSIONS } from '../../../machines/yard/patches/permissions.ts';
import { type BookAsked, useBook } from '../../live/use-book.ts';

export type PatchesHere = BookAsked<'patches'>;

export const usePatches = (): PatchesHere => useBook('patches', PATCHES_PERMISSIONS);
