/** What the present step of a batch waits for, line by line. */
import type { Step } from '../../charts/batch/batch.guards.ts';
import { CAUSES } from '../../charts/flame-interlock/flame-interlock.causes.ts';
import { binderPermissives } from '../../charts/flame-interlock/flame-interlock.guards.ts';
import { isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import type { Line, WeigherId } from '../line.types.ts';
import { batchValue, chartValue, drawWindow, netKg, presentMix, weigherState } from '../lookup.ts';
import { bindingAggregateC } from '../signals-of.ts';
import type { WaitLine } from '../view.types.ts';
import { currentTask } from '../weighing.ts';
import { one } from './numbers.ts';

const aggregateLine = (line: Line): WaitLine => {
  const mix = presentMix(line);
  const { fromC, toC } =
    batchValue(line).step === 'waitingForAggregate' ? drawWindow(mix) : mix.windows.aggregateC;
  return {
    id: 'aggregate',
    text: `Aggregate ${one(bindingAggregateC(line))} °C`,
    wanted: `${fromC}–${toC} °C`,
    standing: line.signals.aggregateInWindow ? 'met' : 'unmet',
  };
};

const binderLine = (line: Line): WaitLine => {
  const mix = presentMix(line);
  const { fromC, toC } = mix.windows.binderC;
  const c = mix.family === 'cutback' ? line.readings.cutbackTankC : line.readings.emulsionTankC;
  return {
    id: 'binder',
    text: `Binder ${one(c)} °C`,
    wanted: `${fromC}–${toC} °C`,
    standing: line.signals.binderInWindow ? 'met' : 'unmet',
  };
};

const weighLine = (line: Line, id: WeigherId, label: string): WaitLine | null => {
  const weigher = line.weighers[id];
  if (weigher.tasks.length === 0) return null;
  const task = currentTask(weigher);
  const out = isOutOfTolerance(weigherState(line, id));
  return {
    id,
    text: task === null ? `${label} weighed` : `${label}: ${task.material}`,
    wanted: task === null ? '' : `${task.targetKg} ± ${one(task.toleranceKg)} kg`,
    standing: task === null ? 'met' : out ? 'alarm' : 'unmet',
  };
};

const isLine = (line: WaitLine | null): line is WaitLine => line !== null;

const interlockLines = (line: Line): WaitLine[] =>
  binderPermissives(chartValue(line, 'interlock') as never)
    .filter((permissive) => !permissive.met)
    .map((permissive) => ({
      id: permissive.id,
      text: CAUSES[permissive.id].words.unmet,
      wanted: permissive.id,
      standing: 'unmet' as const,
    }));

export const waitingFor = (line: Line, step: Step): readonly WaitLine[] => {
  switch (step) {
    case 'charging':
      return [
        weighLine(line, 'aggregateWeigher', 'Aggregates'),
        weighLine(line, 'dryWeigher', 'From the holding bin'),
        weighLine(line, 'binderWeigher', 'Binder'),
      ].filter(isLine);
    case 'preWetting': {
      const from = line.batch?.waterFromL;
      const given = from === undefined || from === null ? 0 : line.readings.waterMeterL - from;
      const target = line.batch?.waterTargetL ?? 0;
      return [
        {
          id: 'water',
          text: `Water ${one(given)} L`,
          wanted: `${one(target)} L`,
          standing: line.signals.waterDelivered ? 'met' : 'unmet',
        },
      ];
    }
    case 'waitingForAggregate':
      return [aggregateLine(line), binderLine(line)];
    case 'waitingForBinder':
      return [
        aggregateLine(line),
        binderLine(line),
        weighLine(line, 'binderWeigher', 'Binder'),
        ...(presentMix(line).family === 'cutback' ? interlockLines(line) : []),
      ].filter(isLine);
    case 'addingBinder':
      return [
        {
          id: 'bucket',
          text: `Bucket ${one(netKg(line, 'bucketKg'))} kg`,
          wanted: 'empty',
          standing: line.signals.bucketEmpty ? 'met' : 'unmet',
        },
      ];
    case 'looking':
      return [
        {
          id: 'coated',
          text: `Stones coated, by eye: ${line.readings.sightCoatedPct} %`,
          wanted: 'every stone',
          standing: line.readings.sightCoatedPct >= 95 ? 'met' : 'unmet',
        },
      ];
    default:
      return [];
  }
};
