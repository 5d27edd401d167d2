/** The book of job mixes at this console. */
import { MIXES_PERMISSIONS } from '../../../machines/yard/mixes/commands.ts';
import { type BookAsked, useBook } from '../../live/use-book.ts';

export type MixesHere = BookAsked<'mixes'>;

export const useMixes = (): MixesHere => useBook('mixes', MIXES_PERMISSIONS);
