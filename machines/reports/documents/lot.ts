/** The lot file laid out. */
import type { ReportDocument } from '../document.ts';
import type { LotFile } from '../lot-file.ts';
import { lotFillPicture, mixTempsPicture } from '../pictures/lot.ts';
import { driftPicture } from '../pictures/weights.ts';
import { plural } from '../words.ts';
import { batchesTable, materialsTable, partsTable, samplesTable, weighedTable } from './batches-table.ts';
import { basisSection, filterText, sealSection, shiftLead, tripsTable } from './common.ts';
import { labSections } from './lab-work.ts';

export const lotDocument = (file: LotFile): ReportDocument => {
  const { lot, head, batches } = file;
  const [shift] = head.shifts;
  const startsAt = shift?.from.slice(11, 16) ?? '00:00';
  const summed = batches.reduce((sum, batch) => sum + batch.grams, 0);
  const agrees =
    lot.grams === file.bookedGrams && (file.closedGrams === null || file.closedGrams === lot.grams);
  const binder = batches.flatMap((batch) => batch.parts).filter((part) => part.material === lot.family);
  return {
    kind: 'lot',
    title: `Lot file ${lot.lot}`,
    lead: `${lot.mix} version ${lot.mixVersion}, bay ${lot.bay}, ${lot.state}. ${shift === undefined ? '' : shiftLead(shift)}`,
    onePage: false,
    sections: [
      {
        is: 'figures',
        id: 'lot',
        title: 'The lot',
        figures: [
          {
            label: 'Mass',
            value: lot.grams / 1000,
            unit: 'kg',
            digits: 3,
            remark: plural(lot.batches.length, 'batch', 'batches'),
          },
          {
            label: 'As the books moved it',
            value: file.bookedGrams / 1000,
            unit: 'kg',
            digits: 3,
            remark: agrees ? 'agrees with the batches to the gram' : 'does not agree with the batches',
            look: !agrees,
          },
          { label: 'State', value: lot.why === null ? lot.state : `${lot.state}: ${lot.why}`, unit: '' },
          { label: 'Opened', value: lot.opened, unit: '' },
          { label: 'Closed', value: lot.closed, unit: '' },
          { label: 'Family', value: lot.family, unit: '' },
          {
            label: 'Binder',
            value: file.binder.grade,
            unit: '',
            remark:
              file.binder.dosePct === null
                ? ''
                : `${file.binder.dosePct} % of dry aggregate, residue ${file.binder.residuePct} % by mass`,
          },
          {
            label: 'Binder weighed',
            value: binder.reduce((sum, part) => sum + Math.round(part.weighedKg * 1000), 0) / 1000,
            unit: 'kg',
            digits: 1,
          },
          {
            label: 'Dumped of its batches',
            value: file.dumpedGrams / 1000,
            unit: 'kg',
            digits: 3,
            look: file.dumpedGrams > 0,
          },
          { label: 'Filter', value: filterText(head), unit: '' },
          ...(summed === lot.grams
            ? []
            : [
                {
                  label: 'In the batches listed',
                  value: summed / 1000,
                  unit: 'kg',
                  digits: 3,
                  remark: 'under the filter',
                },
              ]),
        ],
      },
      { is: 'picture', id: 'fill', title: 'How it filled', picture: lotFillPicture(lot, batches, startsAt) },
      samplesTable([lot]),
      {
        is: 'picture',
        id: 'drift',
        title: 'Weights against their targets, batch by batch',
        picture: driftPicture(batches, file.materials, file.tolerances),
      },
      materialsTable(file.materials),
      {
        is: 'picture',
        id: 'mix-temperatures',
        title: 'Mix at discharge',
        picture: mixTempsPicture(batches, file.mixWindowC),
      },
      batchesTable(batches, true),
      weighedTable(
        batches,
        file.materials.map((one) => one.material),
      ),
      partsTable(batches, true),
      tripsTable(file.trips),
      {
        is: 'table',
        id: 'alarms',
        title: 'Alarms while it was open',
        columns: [
          { key: 'alarm', label: 'Alarm', unit: '', wide: 60 },
          { key: 'priority', label: 'Priority', unit: '', wide: 20 },
          { key: 'times', label: 'Times', unit: '', digits: 0, wide: 20 },
        ],
        rows: file.alarms.map((one) => [one.words, one.priority, one.times]),
        empty: 'No alarm.',
      },
      ...(file.lab === null ? [] : labSections(file.lab)),
      sealSection(head),
      basisSection([
        'Masses are whole grams. Sample tonnages are drawn by lot, one in each equal part of the lot, as ASTM D3665 does by sublots.',
        ...(file.basis === '' ? [] : [`Figures of the mix: ${file.basis}`]),
      ]),
    ],
  };
};
