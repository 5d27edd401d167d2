/** What speaks against beginning something: a batch, a drying campaign, a flame. */
import { campaignUsesHopper } from '../charts/campaign/campaign.guards.ts';
import { CAUSES, type InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import { isTripped, lightingBlockedBy } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { dryTargets } from '../mix/batch-targets.ts';
import { bayGrams } from './alarms.ts';
import type { Line } from './line.types.ts';
import {
  batchValue,
  campaignState,
  chartValue,
  drawsDried,
  mixById,
  netKg,
  presentMix,
  presentOrder,
} from './lookup.ts';

/** A scale further from zero than this is emptied or mended, not zeroed, kg. Common practice, no source. */
export const ZERO_LIMIT_KG = { hopperKg: 15, bucketKg: 2 } as const;

/** Permissives and trips by ID, as "FI-03 Extraction is not proved. Get the fan running." */
export const causeInWords = (id: InterlockCauseId): string => {
  const { words } = CAUSES[id];
  return `${id} ${words.unmet}. ${words.clear}`;
};

export const interlockReasons = (line: Line): string[] =>
  isTripped(chartValue(line, 'interlock') as never)
    ? ['The flame interlock is tripped: clear its cause and reset it first.']
    : [];

const notEmpty = (line: Line): string => {
  const kg = netKg(line, 'hopperKg');
  return Math.abs(kg) <= ZERO_LIMIT_KG.hopperKg
    ? `The weigh hopper reads ${kg} kg: dump it, or zero the scale if it is empty.`
    : `The weigh hopper reads ${kg} kg: ${kg > 0 ? 'dump it' : 'have the scale mended'} first.`;
};

const TOO_COLD =
  'The dry aggregate has cooled below its window and nothing warms it again: run the holding bin out, then dry again.';

/** Aggregate dried for the present campaign has fallen out of its mix's window, where it only gets colder. */
export const driedTooCold = (line: Line): boolean => {
  if (line.campaign === null || campaignState(line) !== 'available') return false;
  return line.readings.holdingBinC < mixById(line, line.campaign.mixId).windows.aggregateC.fromC;
};

/** What speaks against ending a campaign: before the flame it is called off, after it the holding bin is run out. */
export const reasonsAgainstEnd = (line: Line): string[] => {
  const stage = campaignState(line);
  if (stage === 'idle' || stage === 'runningOut') return ['There is no drying campaign to end.'];
  if (stage === 'puttingOut') return ['The campaign is ending: the drum is being purged.'];
  if (stage !== 'cooling' && stage !== 'available') return [];
  const because: string[] = [];
  if (batchValue(line).step !== 'ready')
    because.push(
      'A batch is in progress: finish it, or stop and dump it, before the holding bin is run out.',
    );
  if (line.signals.drumLoaded) because.push('The drum is still emptying into the holding bin: wait for it.');
  return because;
};

/** What speaks against starting a batch of the chosen order, whoever asks. */
export const reasonsAgainstStart = (line: Line): string[] => {
  const because: string[] = [];
  const value = batchValue(line);
  const mix = presentMix(line);
  const order = presentOrder(line);
  const stage = campaignState(line);
  const { plant } = line.scenario;
  if (line.ended) because.push('The shift has ended.');
  if (value.procedure === 'complete')
    because.push('The batch before is just being closed: try again in a moment.');
  else if (value.procedure !== 'idle')
    because.push(`The batch is ${value.procedure}: finish, reset or dump it first.`);
  because.push(...interlockReasons(line));
  if (campaignUsesHopper(stage) && !drawsDried(mix))
    because.push('A drying campaign is using the weigh hopper: end it, or wait until the flame is out.');
  if (!line.signals.hopperEmpty && !drawsDried(mix)) because.push(notEmpty(line));
  if (!line.signals.mixerEmpty) because.push('The pug mill is not empty: dump it first.');
  if (!line.signals.bucketEmpty) because.push('The binder bucket is not empty: dump it first.');
  if (drawsDried(mix)) {
    if (stage !== 'cooling' && stage !== 'available')
      because.push(
        campaignUsesHopper(stage)
          ? mix.family === 'cutback'
            ? 'The drying campaign is not finished: no cutback before the flame is out and the drum is purged.'
            : 'The warming campaign is not finished: wait until the flame is out.'
          : 'There is no dried aggregate: run a drying campaign first.',
      );
    else if (line.readings.holdingBinKg < dryTargets(mix).dryKg)
      because.push(`The holding bin has ${line.readings.holdingBinKg} kg, too little for a batch.`);
    else if (driedTooCold(line)) because.push(TOO_COLD);
  }
  const bay = plant.bays.find((one) => one.id === order.bay);
  if (bay !== undefined && bayGrams(line, bay.id) + mix.batchKg * 1000 > bay.capacityT * 1e6)
    because.push(`${bay.name} is full: choose an order for another bay.`);
  return because;
};

export const reasonsAgainstLight = (line: Line): string[] => {
  const stage = campaignState(line);
  const because: string[] = [];
  if (stage === 'cautions') because.push('The cautions have not been acknowledged.');
  else if (stage !== 'readyToLight' && stage !== 'flameLost')
    because.push('There is no drying campaign ready for a flame: start one first.');
  if (line.signals.burnerLockedOut)
    because.push('The burner is locked out: find the cause and reset it first.');
  because.push(...interlockReasons(line));
  for (const id of lightingBlockedBy(chartValue(line, 'interlock') as never)) because.push(causeInWords(id));
  return because;
};

export const reasonsAgainstCampaign = (line: Line, batches: number): string[] => {
  const because: string[] = [];
  const mix = presentMix(line);
  const value = batchValue(line);
  if (line.ended) because.push('The shift has ended.');
  if (!drawsDried(mix)) because.push('The chosen order takes its aggregate cold: nothing is dried for it.');
  if (campaignState(line) !== 'idle') because.push('A drying campaign is already going on.');
  if (value.procedure !== 'idle') because.push('A batch is in progress: finish it first.');
  because.push(...interlockReasons(line));
  if (line.signals.cutbackInMixer)
    because.push('There is cutback mix in the pug mill: discharge or dump it first.');
  if (line.signals.cutbackInBucket)
    because.push('There is cutback in the binder bucket: use or dump it first.');
  if (!line.signals.hopperEmpty && line.weighers.aggregateWeigher.purpose !== 'dryer')
    because.push(notEmpty(line));
  if (drawsDried(mix)) {
    const needKg = batches * dryTargets(mix).dryKg;
    const capacityKg = line.scenario.plant.holdingBin.capacityKg;
    if (needKg > capacityKg)
      because.push(
        `${batches} batches need ${Math.round(needKg)} kg and the holding bin takes ${capacityKg} kg: ask for fewer.`,
      );
  }
  return because;
};
