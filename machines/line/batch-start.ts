/** Starting a batch: targets taken from the mix, a lot found for it, its chart set going. */
import type { Who } from './facts.ts';
import { batchValue, presentMix, presentOrder, targetsOf } from './lookup.ts';
import { lotForBatch } from './lot-work.ts';
import { drive } from './reactions.ts';
import { reasonsAgainstStart } from './refusals-start.ts';
import { tell, type Work } from './work.ts';

export const startBatch = (work: Work, by: Who): void => {
  const { line } = work;
  const mix = presentMix(line);
  const order = presentOrder(line);
  const targets = targetsOf(line, mix);
  const lot = lotForBatch(work);
  const n = line.batchesDone + line.spoilt + 1;
  line.batch = {
    n,
    mixId: mix.id,
    lot: lot.id,
    bay: order.bay,
    startedTick: line.tick,
    waterTargetL: targets.waterKg,
    antiStripTargetKg: targets.antiStripKg,
    waterFromL: null,
    antiStripFromKg: null,
    mixedTicks: 0,
    parts: [],
    coatedPct: null,
    discharging: false,
    dumping: null,
  };
  tell(work, { is: 'batchStarted', batch: n, mix: mix.id, mixVersion: mix.version, lot: lot.id, by });
  drive(work, 'batch', 'operator.start');
};

/** After a batch the next of its run starts by itself, once nothing speaks against it. */
export const startNextBatch = (work: Work): void => {
  const { line } = work;
  if (line.batchesAhead <= 0 || line.ended) return;
  const value = batchValue(line);
  if (value.procedure !== 'idle' || value.step !== 'ready') return;
  if (reasonsAgainstStart(line).length > 0) return;
  line.batchesAhead -= 1;
  startBatch(work, { person: 'line', role: 'line' });
};
