/** What the line does at each step of a batch. */
import type { Procedure, Step } from '../charts/batch/batch.guards.ts';
import { moveAll, moveMass, toGrams, trueUp } from './books.ts';
import type { Batch } from './line.types.ts';
import { accountGrams, drawsDried, netKg, presentMix, WEIGHER_IDS } from './lookup.ts';
import { bookToLot, freeSamplesOf, raiseSamples } from './lot-work.ts';
import { clearWeigher, weighBinder, weighDry, weighForBatch } from './weigh-work.ts';
import { gainedKg } from './weighing.ts';
import { moveChart, tell, type Work } from './work.ts';

const WHY: { readonly [P in Procedure]?: string } = {
  holding: 'a hold was asked for, a weight is out, or the interlock tripped',
  aborting: 'an abort was asked for or the emergency stop was pressed',
};

export const enterProcedure = (work: Work, state: Procedure): void => {
  const batch = work.line.batch?.n ?? 0;
  const { signals } = work.line;
  const why =
    state === 'holding' && signals.tripped
      ? 'the flame interlock tripped'
      : state === 'holding' && signals.weightOutOfTolerance
        ? 'a weight is outside its tolerance'
        : state === 'aborting' && signals.emergencyStop
          ? 'the emergency stop was pressed'
          : (WHY[state] ?? '');
  if (batch > 0) tell(work, { is: 'procedureEntered', batch, state, why });
  if (state === 'stopping' || state === 'aborting') work.line.batchesAhead = 0;
};

const meterWater = (work: Work): void => {
  const { line } = work;
  if (line.batch === null || line.batch.waterFromL === null) return;
  const litres = line.readings.waterMeterL - line.batch.waterFromL;
  moveMass(work, 'materials', 'mixer', Math.max(0, toGrams(litres)), 'water');
  const part = {
    material: 'water',
    targetKg: Math.round(line.batch.waterTargetL * 10) / 10,
    weighedKg: Math.round(litres * 10) / 10,
    accepted: null,
  };
  line.batch = { ...line.batch, waterFromL: null, parts: [...line.batch.parts, part] };
};

const meterAntiStrip = (work: Work): void => {
  const { line } = work;
  if (line.batch === null || line.batch.antiStripFromKg === null) return;
  const kg = line.readings.antiStripMeterKg - line.batch.antiStripFromKg;
  moveMass(work, 'materials', 'mixer', Math.max(0, toGrams(kg)), 'anti-strip');
  const part = {
    material: 'anti-strip',
    targetKg: Math.round(line.batch.antiStripTargetKg * 1000) / 1000,
    weighedKg: Math.round(kg * 1000) / 1000,
    accepted: null,
  };
  line.batch = { ...line.batch, antiStripFromKg: null, parts: [...line.batch.parts, part] };
};

/** What a vessel no longer shows has gone down into the mill: there is no other way out of it. */
const leftVessel = (work: Work, vessel: 'hopper' | 'bucket', scaleKg: number, material: string): void => {
  const gone = accountGrams(work.line, vessel) - Math.max(0, toGrams(scaleKg));
  if (gone > 0) moveMass(work, vessel, 'mixer', gone, material);
  else trueUp(work, vessel, scaleKg, material);
};

const tellDischarged = (work: Work, batch: Batch, grams: number): void => {
  tell(work, {
    is: 'batchDischarged',
    batch: batch.n,
    lot: batch.lot,
    bay: batch.bay,
    grams,
    mixC: work.line.readings.mixC,
    mixedS: Math.round(batch.mixedTicks / 10),
    parts: batch.parts,
  });
};

/** Broken off while discharging: what the gate has let out by its rate lies in the bay and belongs to the lot. */
const bookLaid = (work: Work): void => {
  const { line } = work;
  const { batch, watch } = line;
  if (batch === null || !batch.discharging) return;
  const byRate = Math.round(watch.mixerGateTicks * line.scenario.plant.mixer.dischargeKgS * 100);
  const grams = Math.min(accountGrams(line, 'mixer'), byRate);
  if (grams <= 0) return;
  moveMass(work, 'mixer', `lot:${batch.lot}`, grams, 'mix');
  line.orders = line.orders.map((order) =>
    order.n === line.order ? { ...order, madeGrams: order.madeGrams + grams } : order,
  );
  tellDischarged(work, batch, grams);
  bookToLot(work, batch.lot, batch.n, grams);
};

/** Everything a half-done weighing or metering left is booked before it goes to waste. */
const bookLoose = (work: Work): void => {
  const { line } = work;
  leftVessel(work, 'hopper', netKg(line, 'hopperKg'), 'aggregate');
  leftVessel(work, 'bucket', netKg(line, 'bucketKg'), 'binder');
  if (line.weighers.dryWeigher.tasks.length > 0 && line.weighers.dryWeigher.at === 0) {
    const drawn = gainedKg(line.weighers.dryWeigher, line.readings.holdingBinKg, true);
    moveMass(work, 'holdingBin', 'mixer', Math.max(0, toGrams(drawn)), 'dry aggregate');
  }
  meterWater(work);
  meterAntiStrip(work);
};

const finish = (work: Work): void => {
  const { line } = work;
  line.batch = null;
  line.batchesDone += 1;
};

const fileSheet = (work: Work, batch: Batch, grams: number, dumped: string | null): void => {
  const { line } = work;
  line.sheets = [
    ...line.sheets,
    {
      n: batch.n,
      lot: batch.lot,
      bay: batch.bay,
      fromTick: batch.startedTick,
      toTick: line.tick,
      grams,
      mixC: line.readings.mixC,
      mixedS: Math.round(batch.mixedTicks / 10),
      coatedPct: batch.coatedPct,
      parts: batch.parts,
      dumped,
    },
  ];
};

const discharged = (work: Work): void => {
  const { line } = work;
  const { batch } = line;
  if (batch === null) return;
  const account = `lot:${batch.lot}` as const;
  const grams = moveAll(work, 'mixer', account, 'mix');
  line.orders = line.orders.map((order) =>
    order.n === line.order ? { ...order, madeGrams: order.madeGrams + grams } : order,
  );
  tellDischarged(work, batch, grams);
  fileSheet(work, batch, grams, null);
  bookToLot(work, batch.lot, batch.n, grams);
  finish(work);
};

const dumped = (work: Work): void => {
  const { line } = work;
  const { batch } = line;
  const grams = moveAll(work, 'mixer', 'waste', 'waste');
  if (batch !== null && batch.dumping !== null)
    tell(work, {
      is: 'batchDumped',
      batch: batch.n,
      grams,
      reason: batch.dumping.reason,
      by: batch.dumping.by,
    });
  if (batch !== null) {
    line.spoilt += 1;
    freeSamplesOf(work, batch.n);
    fileSheet(work, batch, grams, batch.dumping?.reason ?? '');
  }
  line.batch = null;
};

export const enterBatchStep = (work: Work, step: Step): void => {
  const { line } = work;
  const mix = presentMix(line);
  if (line.batch !== null) tell(work, { is: 'stepEntered', batch: line.batch.n, step });
  switch (step) {
    case 'charging':
      if (drawsDried(mix)) weighDry(work);
      else weighForBatch(work);
      // Not before: hot binder is not left standing in its bucket while aggregate cools.
      weighBinder(work);
      return;
    case 'preWetting':
      if (drawsDried(mix)) clearWeigher(work, 'dryWeigher');
      if (line.batch !== null) line.batch = { ...line.batch, waterFromL: line.readings.waterMeterL };
      return;
    case 'preWetMixing':
      meterWater(work);
      return;
    case 'antiStripping':
      clearWeigher(work, 'dryWeigher');
      if (line.batch !== null)
        line.batch = { ...line.batch, antiStripFromKg: line.readings.antiStripMeterKg };
      return;
    case 'waitingForBinder':
      meterAntiStrip(work);
      return;
    case 'looking':
      raiseSamples(work, accountGrams(line, 'mixer') / 1000);
      return;
    case 'discharged':
      discharged(work);
      moveChart(work, 'batch', 'line.booked');
      return;
    case 'discharging':
      if (line.batch !== null) line.batch = { ...line.batch, discharging: true };
      return;
    case 'dumping':
      bookLoose(work);
      bookLaid(work);
      for (const id of WEIGHER_IDS) clearWeigher(work, id);
      return;
    case 'dumped':
      dumped(work);
      moveChart(work, 'batch', 'line.booked');
      return;
    default:
  }
};
