/** Weights and the plant drawing's data. */

import { tankHeating } from '../../charts/tank-heater/tank-heater.guards.ts';
import { isFilling, isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import { cylinderM3 } from '../../mix/cylinder.ts';
import { bitumenColumn, densityKgM3 } from '../../mix/volume-correction.ts';
import type { TankSpec } from '../../scenario/plant.schema.ts';
import { bayGrams } from '../alarms.ts';
import type { Line, WeigherId } from '../line.types.ts';
import {
  accountGrams,
  batchValue,
  chartValue,
  cutbackMix,
  drawsDried,
  drawWindow,
  emulsionMix,
  presentMix,
  WEIGHER_SCALES,
  weigherState,
} from '../lookup.ts';
import type { PlantView, Standing, WeightView } from '../view.types.ts';
import { currentTask, gainedKg } from '../weighing.ts';
import { activeTitle } from './titles.ts';

const weigherText = (line: Line, id: WeigherId): string => {
  const state = weigherState(line, id);
  const task = currentTask(line.weighers[id]);
  if (task === null) return state === 'weighed' ? 'weighed' : '';
  if (state === 'coarse') return `${task.material}, full feed`;
  if (state === 'fine') return `${task.material}, dribble`;
  if (state === 'toppingUp') return `${task.material}, topping up`;
  if (state === 'stalled') return `${task.material} does not gain`;
  if (state === 'light' || state === 'heavy') return `${task.material} is too ${state}`;
  return `${task.material}, settling`;
};

const weightView = (line: Line, id: WeigherId, label: string, capacityKg: number): WeightView => {
  const scale = WEIGHER_SCALES[id];
  const weigher = line.weighers[id];
  const reading = line.readings[scale.tag];
  const task = currentTask(weigher);
  const state = weigherState(line, id);
  // The holding bin gives: shown is what was drawn. The others show the load on the scale, targets on top of what is there.
  const base = scale.gives ? 0 : weigher.fromKg;
  const shown = scale.gives
    ? weigher.tasks.length > 0
      ? Math.max(0, gainedKg(weigher, reading, true))
      : 0
    : reading;
  const target = task === null ? null : Math.round((base + task.targetKg) * 10) / 10;
  const standing: Standing = isOutOfTolerance(state)
    ? 'alarm'
    : isFilling(state) || task !== null
      ? 'unmet'
      : 'met';
  return {
    id,
    label,
    valueKg: Math.round(shown * 10) / 10,
    targetKg: target,
    lowKg: task === null || target === null ? null : target - task.toleranceKg,
    highKg: task === null || target === null ? null : target + task.toleranceKg,
    capacityKg,
    standing,
    text: weigherText(line, id),
  };
};

export const weightViews = (line: Line): readonly WeightView[] => {
  const { plant } = line.scenario;
  const mix = presentMix(line);
  const views = [weightView(line, 'aggregateWeigher', 'Aggregate hopper', plant.hopper.capacityKg)];
  if (drawsDried(mix)) views.push(weightView(line, 'dryWeigher', 'Drawn from holding bin', mix.batchKg));
  views.push(weightView(line, 'binderWeigher', 'Binder bucket', plant.bucket.capacityKg));
  return views;
};

const tankView = (line: Line, id: 'emulsion' | 'cutback', spec: TankSpec): PlantView['tanks'][number] => {
  const dipMm = id === 'emulsion' ? line.readings.emulsionDipMm : line.readings.cutbackDipMm;
  const tempC = id === 'emulsion' ? line.readings.emulsionTankC : line.readings.cutbackTankC;
  const m3 = cylinderM3(spec.diameterM, spec.lengthM, dipMm / 1000);
  const column = id === 'emulsion' ? ('emulsion' as const) : bitumenColumn(spec.densityAt15KgM3);
  const mix = id === 'emulsion' ? emulsionMix(line) : cutbackMix(line);
  return {
    id,
    grade: spec.grade,
    massKg: Math.round(m3 * densityKgM3(column, spec.densityAt15KgM3, tempC)),
    litres: Math.round(m3 * 1000),
    levelShare: Math.round((dipMm / 1000 / spec.diameterM) * 1000) / 1000,
    coilCoverMm: Math.round(dipMm - spec.coilTopM * 1000),
    heating: tankHeating(chartValue(line, id === 'emulsion' ? 'emulsionTank' : 'cutbackTank') as never),
    setC: mix?.windows.tankSetC ?? 0,
  };
};

const mixerText = (line: Line): string => {
  const grams = accountGrams(line, 'mixer');
  if (grams <= 0) return line.signals.mixerTurning ? 'empty, turning' : 'empty';
  const kg = Math.round(grams / 1000);
  const mixedS = Math.floor((line.batch?.mixedTicks ?? 0) / 10);
  const { step } = batchValue(line);
  if (mixedS === 0) return `${kg} kg ${drawsDried(presentMix(line)) ? 'dry' : 'wet'} aggregate`;
  const minutes = `${Math.floor(mixedS / 60)}:${String(mixedS % 60).padStart(2, '0')}`;
  return step === 'discharging' ? `${kg} kg, discharging` : `${kg} kg, mixed ${minutes}`;
};

export const plantView = (line: Line): PlantView => {
  const { plant } = line.scenario;
  const { readings } = line;
  return {
    readings,
    outputs: line.outputs,
    faults: Object.entries(line.faults).map(([target, fault]) => ({ target, fault: fault as 'on' })),
    bins: plant.bins.map((bin, i) => ({
      name: bin.name,
      size: bin.size,
      levelPct: readings[`bin${i + 1}LevelPct` as 'bin1LevelPct'],
      moisturePct: bin.testedMoisturePct,
    })),
    tanks: [tankView(line, 'emulsion', plant.tanks.emulsion), tankView(line, 'cutback', plant.tanks.cutback)],
    bays: plant.bays.map((bay) => ({
      id: bay.id,
      name: bay.name,
      massKg: Math.round(bayGrams(line, bay.id) / 1000),
      capacityKg: bay.capacityT * 1000,
    })),
    wasteKg: Math.round(accountGrams(line, 'waste') / 1000),
    mixerText: mixerText(line),
    burnerText: activeTitle(line, 'burner'),
    purgeVolumes: Math.round(line.watch.purgeVolumes * 10) / 10,
    purgeVolumesNeeded: plant.dryer.purgeVolumes,
    limits: {
      vapourWarnLelPct: plant.limits.vapourWarnLelPct,
      vapourTripLelPct: plant.limits.vapourTripLelPct,
      aggregateMaxC: plant.limits.aggregateMaxC,
      holdingBinKg: plant.holdingBin.capacityKg,
      drawC: drawsDried(presentMix(line)) && readings.holdingBinKg > 20 ? drawWindow(presentMix(line)) : null,
    },
  };
};
