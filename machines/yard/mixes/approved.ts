/** Which version of a mix is in force: what schedules take and the next shift is opened with. */
import type { Mix } from '../../scenario/mix.schema.ts';
import type { MixesState, MixVersion } from './state.ts';

/** The approved version of a mix, or null when it has none. */
export const approvedMix = (state: Pick<MixesState, 'mixes'>, mix: string): Mix | null =>
  state.mixes[mix]?.find((one) => one.state === 'approved')?.content ?? null;

/** The approved version of every mix that has one, in order of their ids. */
export const approvedMixes = (state: Pick<MixesState, 'mixes'>): Mix[] =>
  Object.keys(state.mixes)
    .sort()
    .flatMap((mix) => {
      const content = approvedMix(state, mix);
      return content === null ? [] : [content];
    });

/** One version, or null. */
export const versionOf = (
  state: Pick<MixesState, 'mixes'>,
  mix: string,
  version: number,
): MixVersion | null => state.mixes[mix]?.find((one) => one.content.version === version) ?? null;
