/** The batch sheet laid out: one page. */

import type { BatchSheet } from '../batch-sheet.ts';
import { clockOfStamp, durationWords } from '../clock.ts';
import type { ReportDocument, Section } from '../document.ts';
import { ribbonPicture } from '../pictures/ribbon.ts';
import { tracesPicture } from '../pictures/traces.ts';
import { weightsPicture } from '../pictures/weights.ts';
import { partsTable } from './batches-table.ts';
import { sealSection, shiftLead } from './common.ts';

const outcomeText = ({ batch }: BatchSheet): string => {
  if (batch.outcome === 'running') return 'not finished';
  if (batch.dumpedWhy === null) return `laid in bay ${batch.bay}`;
  return `${batch.outcome} by ${batch.dumpedBy}: ${batch.dumpedWhy}`;
};

const figuresSection = (sheet: BatchSheet): Section => {
  const { batch, mixedS, binderPct } = sheet;
  const { wanted, longest, extended } = mixedS;
  const times = [
    wanted === null ? '' : `asked for ${wanted} s`,
    longest === null ? '' : `${longest} s at most`,
    extended === 0 ? '' : `mixed longer ${extended} ×`,
  ].filter((words) => words !== '');
  return {
    is: 'figures',
    id: 'batch',
    title: 'The batch',
    figures: [
      {
        label: 'Mass into its lot',
        value: batch.grams / 1000,
        unit: 'kg',
        digits: 3,
        remark: `lot ${batch.lot}`,
      },
      ...(batch.dumpedGrams === 0
        ? []
        : [{ label: 'Dumped', value: batch.dumpedGrams / 1000, unit: 'kg', digits: 3, look: true }]),
      { label: 'Outcome', value: outcomeText(sheet), unit: '', look: batch.dumpedWhy !== null },
      { label: 'Mix at discharge', value: batch.mixC, unit: '°C', digits: 1 },
      {
        label: 'Mixed',
        value: batch.mixedS,
        unit: 's',
        digits: 0,
        remark: times.join(', '),
        look: longest !== null && batch.mixedS !== null && batch.mixedS > longest,
      },
      {
        label: 'Coated, by eye',
        value: batch.coatedPct,
        unit: '%',
        digits: 0,
        remark: batch.lookedBy === null ? '' : `seen by ${batch.lookedBy}`,
      },
      {
        label: 'Binder on aggregate',
        value: binderPct.got,
        unit: '%',
        digits: 2,
        remark: binderPct.asked === null ? '' : `asked for ${binderPct.asked.toFixed(2)} %, both as weighed`,
      },
      {
        label: 'Asked for by',
        value: batch.startedBy === null ? null : `${batch.startedBy.name}, ${batch.startedBy.role}`,
        unit: '',
        remark: batch.inRun ? 'started by the line in a run' : '',
      },
    ],
  };
};

export const batchDocument = (sheet: BatchSheet): ReportDocument => {
  const { batch, head } = sheet;
  const [shift] = head.shifts;
  const startsAt = shift?.from.slice(11, 16) ?? '00:00';
  const weights = partsTable([batch]);
  return {
    kind: 'batch',
    title: `Batch sheet ${batch.batch}`,
    lead: `${batch.mix} version ${batch.mixVersion}, lot ${batch.lot}, ${clockOfStamp(batch.from, true)}–${
      batch.to === null ? '…' : clockOfStamp(batch.to, true)
    }. ${shift === undefined ? '' : shiftLead(shift)}`,
    onePage: true,
    sections: [
      figuresSection(sheet),
      {
        is: 'picture',
        id: 'weights-picture',
        title: 'Weights against targets',
        picture: weightsPicture(batch.parts),
      },
      { ...weights, columns: weights.columns },
      {
        is: 'picture',
        id: 'ribbon',
        title: 'Steps',
        picture: ribbonPicture(sheet.ribbon, startsAt, batch.fromS),
      },
      ...(sheet.traces.some((trace) => trace.points.length > 0)
        ? [
            {
              is: 'picture' as const,
              id: 'temperatures',
              title: 'Temperatures in their windows',
              picture: tracesPicture(
                sheet.traces,
                sheet.windows,
                startsAt,
                batch.fromS,
                sheet.ribbon.toS,
                118,
              ),
            },
          ]
        : []),
      {
        is: 'table',
        id: 'steps',
        title: 'Steps in words',
        columns: [
          { key: 'from', label: 'From', unit: '', wide: 25 },
          { key: 'step', label: 'Step', unit: '', wide: 55 },
          { key: 'forS', label: 'For', unit: 's', digits: 1, wide: 20 },
        ],
        rows: sheet.steps.map((step) => [clockOfStamp(step.from, true), step.step, step.forS]),
        empty: 'No step was entered.',
      },
      {
        is: 'table',
        id: 'events',
        title: 'What was odd',
        columns: [
          { key: 'at', label: 'Time', unit: '', wide: 18 },
          { key: 'what', label: 'What', unit: '', wide: 62 },
          { key: 'by', label: 'By', unit: '', wide: 20 },
        ],
        rows: sheet.events.map((event) => [event.at, event.what, event.by]),
        empty: 'No weight out, no alarm, no refusal, no hold.',
        look: sheet.events.map((_, i) => i),
      },
      {
        is: 'table',
        id: 'samples',
        title: 'Samples from this batch',
        columns: [
          { key: 'lot', label: 'Lot', unit: '', wide: 25 },
          { key: 'sample', label: 'Sample', unit: '', wide: 15 },
          { key: 'taken', label: 'Taken', unit: '', wide: 35 },
          { key: 'by', label: 'By', unit: '', wide: 25 },
        ],
        rows: sheet.samples.map((one) => [one.lot, one.sample, one.taken, one.by ?? '']),
        empty: 'None was taken from this batch.',
      },
      sealSection(head),
      {
        is: 'words',
        id: 'basis',
        title: 'How to read this',
        lines: [
          `Time in steps: ${durationWords(sheet.steps.reduce((sum, step) => sum + step.forS, 0))}. Binder and aggregate as weighed, moisture included.`,
          ...(sheet.basis === '' ? [] : [`Figures of the mix: ${sheet.basis}`]),
        ],
      },
    ],
  };
};
