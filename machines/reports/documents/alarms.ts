/** Alarm performance laid out: our figures beside the published ones, each with its source and status. */

import { CHATTER, FLEETING_S, FLOOD, LONG_STANDING_S, STALE_S } from '../alarm-published.ts';
import type { AlarmReport } from '../alarm-report.ts';
import { durationWords } from '../clock.ts';
import type { ReportDocument } from '../document.ts';
import { barsPicture, histogramPicture, perShiftPicture } from '../pictures/counts.ts';
import { plural } from '../words.ts';
import { basisSection, filterText, sealSection, shiftLead, shiftsTable } from './common.ts';

/** More shifts than this are shown as a bar each. */
const HISTOGRAMS = 3;

const verdict = (within: boolean | null): string => (within === null ? '–' : within ? 'within' : 'above');

export const alarmsDocument = (report: AlarmReport): ReportDocument => {
  const [shift] = report.head.shifts;
  const many = report.histograms.length > HISTOGRAMS;
  const spread = (['low', 'medium', 'high'] as const)
    .map((priority) => report.priorities.find((one) => one.priority === priority)?.pct ?? 0)
    .map((pct) => Math.round(pct))
    .join(' / ');
  return {
    kind: 'alarms',
    title: 'Alarm performance',
    lead:
      report.head.shifts.length === 1 && shift !== undefined
        ? `${plural(report.alarms, 'alarm')} in ${durationWords(report.runS)}. ${shiftLead(shift)}`
        : `${plural(report.alarms, 'alarm')} in ${plural(report.head.shifts.length, 'shift')}, ${durationWords(report.runS)} of running. ${report.head.plant}`,
    onePage: false,
    sections: [
      ...(many
        ? [
            {
              is: 'picture' as const,
              id: 'per-shift',
              title: 'Alarms of each shift',
              picture: perShiftPicture(report.histograms),
            },
          ]
        : report.histograms.map((one) => ({
            is: 'picture' as const,
            id: `histogram-${one.shift}`,
            title: 'Alarms in each 10 minutes',
            picture: histogramPicture(one),
          }))),
      {
        is: 'table',
        id: 'figures',
        title: 'Against the published figures',
        columns: [
          { key: 'figure', label: 'Figure', unit: '', wide: 27 },
          { key: 'value', label: 'Here', unit: '', wide: 13 },
          { key: 'unitOfValue', label: 'Unit', unit: '', wide: 6 },
          { key: 'target', label: 'Published', unit: '', wide: 27 },
          { key: 'verdict', label: 'Verdict', unit: '', wide: 10 },
          { key: 'source', label: 'Source', unit: '', wide: 22 },
          { key: 'status', label: 'Status of the figure', unit: '', wide: 22 },
        ],
        rows: report.figures.map((one) => [
          one.words,
          one.id === 'priorities' ? (report.alarms === 0 ? '–' : spread) : one.value,
          one.id === 'priorities' ? '%' : one.unit,
          one.target,
          verdict(one.within),
          one.source,
          one.status,
        ]),
        empty: '',
        look: report.figures.flatMap((one, i) => (one.within === false ? [i] : [])),
      },
      {
        is: 'table',
        id: 'floods',
        title: 'Floods',
        columns: [
          { key: 'shift', label: 'Shift #', unit: '', wide: 10 },
          { key: 'from', label: 'From', unit: '', wide: 25 },
          { key: 'to', label: 'To', unit: '', wide: 25 },
          { key: 'forS', label: 'For', unit: 's', digits: 1, wide: 14 },
          { key: 'alarms', label: 'Alarms', unit: '', digits: 0, wide: 12 },
          { key: 'peak', label: 'Most in 10 minutes', unit: '', digits: 0, wide: 16 },
        ],
        rows: report.floods.map((one) => [
          one.shift,
          one.from,
          one.to,
          one.toS - one.fromS,
          one.alarms,
          one.peak,
        ]),
        empty: 'No flood.',
        look: report.floods.map((_, i) => i),
      },
      ...(report.byAlarm.length === 0
        ? []
        : [
            {
              is: 'picture' as const,
              id: 'top-ten',
              title: 'The most frequent',
              picture: barsPicture(
                report.byAlarm.slice(0, 10).map((one) => ({ words: one.words, value: one.times })),
                'The most frequent alarms',
              ),
            },
          ]),
      {
        is: 'table',
        id: 'alarms',
        title: 'Alarm by alarm',
        columns: [
          { key: 'alarm', label: 'Alarm', unit: '', wide: 32 },
          { key: 'priority', label: 'Priority', unit: '', wide: 9 },
          { key: 'times', label: 'Times', unit: '', digits: 0, wide: 7 },
          { key: 'pct', label: 'Share', unit: '%', digits: 1, wide: 8 },
          { key: 'stoodS', label: 'Stood', unit: 's', digits: 1, wide: 9 },
          { key: 'longestS', label: 'Longest', unit: 's', digits: 1, wide: 9 },
          { key: 'meanAckS', label: 'To acknowledge, mean', unit: 's', digits: 1, wide: 12 },
          { key: 'chattering', label: 'Chattering', unit: '', digits: 0, wide: 10 },
          { key: 'fleeting', label: 'Fleeting', unit: '', digits: 0, wide: 8 },
          { key: 'standing', label: 'At the end', unit: '', wide: 9 },
        ],
        rows: report.byAlarm.map((one) => [
          one.words,
          one.priority,
          one.times,
          one.pct,
          one.stoodS,
          one.longestS,
          one.meanAckS,
          one.chattering,
          one.fleeting,
          one.standing ? 'stands' : 'gone',
        ]),
        empty: 'No alarm was raised.',
        look: report.byAlarm.flatMap((one, i) =>
          one.chattering + one.fleeting > 0 || one.longestS >= LONG_STANDING_S ? [i] : [],
        ),
      },
      {
        is: 'table',
        id: 'priorities',
        title: 'By priority',
        columns: [
          { key: 'priority', label: 'Priority', unit: '', wide: 40 },
          { key: 'times', label: 'Times', unit: '', digits: 0, wide: 30 },
          { key: 'pct', label: 'Share', unit: '%', digits: 1, wide: 30 },
        ],
        rows: report.priorities.map((one) => [one.priority, one.alarms, one.pct]),
        empty: '',
      },
      {
        is: 'table',
        id: 'shelved',
        title: 'Shelved and out of service',
        columns: [
          { key: 'at', label: 'Time', unit: '', wide: 20 },
          { key: 'alarm', label: 'Alarm', unit: '', wide: 30 },
          { key: 'what', label: 'What', unit: '', wide: 14 },
          { key: 'by', label: 'By', unit: '', wide: 12 },
          { key: 'reason', label: 'Reason', unit: '', wide: 28 },
        ],
        rows: report.shelved.map((one) => [one.at, one.words, one.what, one.by, one.reason]),
        empty: 'Nothing was shelved or taken out of service.',
      },
      shiftsTable(report.head),
      sealSection(report.head),
      basisSection([
        `Filter: ${filterText(report.head)}. Counted is every entry of an alarm into “unacknowledged”; rates are over running time, a day being 24 running hours. One operator is taken to answer them all.`,
        `A flood starts when more than ${FLOOD.startsAbove} alarms lie in the 10 minutes up to a moment, and ends when fewer than ${FLOOD.endsBelow} do (ISA-18.2, seen in a summary); the 10 minutes slide, and no flood runs from one shift into the next.`,
        `Chattering: raised ${CHATTER.times} times or more within ${CHATTER.withinS} s (ISA-18.2, from memory). Fleeting: gone within ${FLEETING_S} s, unacknowledged (common practice, no source). Stale: stands ${STALE_S / 3600} h (ISA-18.2, from memory); marked here from ${LONG_STANDING_S / 3600} h on (common practice, no source).`,
        'A standard’s figure is a target for large control rooms; a plant of a few dozen alarms reads it as a direction. That the ten most frequent are nearly all is no finding here, so it gets no verdict.',
      ]),
    ],
  };
};
