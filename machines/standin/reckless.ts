/** What somebody does who wants it done, not done right: tries what is forbidden, confirms without looking, resets at once. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { ALARMS } from '../line/alarms.ts';
import type { Command } from '../line/commands.ts';
import type { ChartId, Line } from '../line/line.types.ts';
import {
  batchValue,
  campaignState,
  chartValue,
  presentMix,
  presentOrder,
  WEIGHER_IDS,
  weigherState,
} from '../line/lookup.ts';
import { campaign, startWork } from './decide.ts';

const nuisance = (line: Line): Command | null => {
  const alarm = ALARMS.find(
    (one) =>
      one.priority !== 'low' &&
      alarmState(chartValue(line, `alarm:${one.id}` as ChartId) as never) === 'unacknowledged',
  );
  return alarm === undefined
    ? null
    : { do: 'shelve', alarm: alarm.id, minutes: 60, reason: 'it keeps on sounding' };
};

/** Things it would like to do now, the dearest first; what was refused a moment ago is passed over by who asks. */
export const recklessly = (line: Line): readonly Command[] => {
  const { procedure, step } = batchValue(line);
  const stage = campaignState(line);
  const wishes: (Command | null)[] = [];
  const cutback = presentMix(line).family === 'cutback';
  if (line.signals.tripped) wishes.push({ do: 'resetTrip' });
  if (line.signals.burnerLockedOut) wishes.push({ do: 'resetBurner' });
  if (procedure === 'held') {
    if (WEIGHER_IDS.some((id) => ['light', 'stalled'].includes(weigherState(line, id))))
      wishes.push({ do: 'topUp' });
    wishes.push({ do: 'restart' });
  }
  if (procedure === 'stopped' || procedure === 'aborted')
    wishes.push(step === 'ready' ? { do: 'reset' } : { do: 'dump', reason: 'to get on' });
  if (cutback && (step === 'mixing' || step === 'looking' || line.signals.cutbackInMixer))
    wishes.push({ do: 'lightBurner' });
  if (procedure === 'running' && step === 'looking') wishes.push({ do: 'confirmLook' });
  for (const tank of ['emulsion', 'cutback'] as const)
    if (line.tankMemos[tank].delivery !== null && line.tankMemos[tank].delivery?.confirmedAs === null)
      wishes.push({ do: 'confirmDelivery', tank, product: tank });
  wishes.push(nuisance(line), campaign(line));
  if (procedure === 'idle' && step === 'ready') {
    const order = presentOrder(line);
    const due = order.madeGrams < order.tonnes * 1e6;
    if (due && stage !== 'idle' && cutback) wishes.push({ do: 'start', batches: 1 });
    wishes.push(startWork(line));
  }
  return wishes.filter((one) => one !== null);
};
