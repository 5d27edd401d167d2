/** The label sheet of a lot, from the record. */
import { type LabelSheet, labelSheet } from '../../machines/reports/labels.ts';
import type { Store } from '../store/store.ts';
import { NothingMeant, reportSource } from './source.ts';

/** Labels of all samples of a lot, or of one. Throws NothingMeant, in words, where there is none. */
export const labelsFrom = async (store: Store, lot: string, sample?: number): Promise<LabelSheet> => {
  const { shifts } = await reportSource(store, 'lot', { lot });
  const source = shifts.at(-1);
  const lab = source?.lab;
  if (source === undefined || lab === undefined || lab === null)
    throw new NothingMeant(`The lab has no book of lot ${lot}: choose a lot of its list.`);
  let opened: { readonly mix: string; readonly mixVersion: number; readonly family: string } | null = null;
  for (const entry of source.entries)
    if (entry.kind === 'fact' && entry.body.fact.is === 'lotOpened' && entry.body.fact.lot === lot)
      opened = entry.body.fact;
  const sheet = labelSheet(lab, {
    mix: opened === null ? '' : `${opened.mix} v${opened.mixVersion}`,
    family: opened?.family ?? '',
    plant: source.scenario?.plant.name ?? '',
    ...(sample === undefined ? {} : { sample }),
  });
  if (sheet.labels.length === 0)
    throw new NothingMeant(
      sample === undefined
        ? `Lot ${lot} has no sample planned: there is nothing to label.`
        : `Lot ${lot} has no sample ${sample}: its samples are ${lab.samples.map((one) => one.sample).join(', ') || 'none'}.`,
    );
  return sheet;
};
