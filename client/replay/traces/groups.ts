/** Instruments grouped by the item they belong to, and the windows and limits their readings are held against. */
import { TAGS, type Tag } from '../../../machines/field/tags.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { itemsOf } from '../../drawing/items.ts';

export type TagGroup = { readonly name: string; readonly tags: readonly string[] };

export const labelOf = (tag: string): string => (tag in TAGS ? TAGS[tag as Tag].label : tag);
export const unitOf = (tag: string): string => (tag in TAGS ? TAGS[tag as Tag].unit : '');
export const isSwitch = (tag: string): boolean => tag in TAGS && TAGS[tag as Tag].kind === 'switch';

/** Every recorded instrument once: by item in the order the material meets them, then whatever belongs to none. */
export const groupsOf = (scenario: Scenario, recorded: readonly string[]): readonly TagGroup[] => {
  const there = new Set(recorded);
  const groups: TagGroup[] = [];
  for (const item of itemsOf(scenario.plant.bins)) {
    const tags = item.tags.filter((tag) => there.has(tag));
    for (const tag of tags) there.delete(tag);
    if (tags.length > 0) groups.push({ name: item.name, tags });
  }
  const rest = recorded.filter((tag) => there.has(tag));
  if (rest.length > 0) groups.push({ name: 'Site', tags: rest });
  return groups;
};

/** A window between two values or one limit (`from` or `to` null), with its words. */
export type Bound = {
  readonly tag: string;
  readonly from: number | null;
  readonly to: number | null;
  readonly words: string;
};

/** What the mixes and the plant of this shift ask of its instruments. */
export const boundsOf = ({ mixes, plant }: Scenario): readonly Bound[] => [
  ...mixes.flatMap((mix): Bound[] => {
    const { aggregateC, binderC } = mix.windows;
    const tank = mix.family === 'cutback' ? 'cutbackTankC' : 'emulsionTankC';
    const drawn = mix.drying === undefined ? 'hopperC' : 'holdingBinC';
    return [
      { tag: tank, from: binderC.fromC, to: binderC.toC, words: `binder window of ${mix.name}` },
      { tag: drawn, from: aggregateC.fromC, to: aggregateC.toC, words: `aggregate window of ${mix.name}` },
      { tag: 'mixC', from: aggregateC.fromC, to: aggregateC.toC, words: `aggregate window of ${mix.name}` },
    ];
  }),
  { tag: 'vapourLelPct', from: null, to: plant.limits.vapourWarnLelPct, words: 'vapour warning' },
  { tag: 'vapourLelPct', from: null, to: plant.limits.vapourTripLelPct, words: 'vapour trip' },
  { tag: 'drumAggregateC', from: null, to: plant.limits.aggregateMaxC, words: 'hottest aggregate allowed' },
  { tag: 'holdingBinKg', from: null, to: plant.holdingBin.capacityKg, words: 'holding bin full' },
];
