/** What the line does when a chart has moved: weigh-ups begun, masses booked, facts told. */
import type { AnyMachineSnapshot } from 'xstate';
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import type { BatchValue } from '../charts/batch/batch.guards.ts';
import { wantsHighFire } from '../charts/campaign/campaign.guards.ts';
import type { CampaignState } from '../charts/campaign/campaign.machine.ts';
import { CAUSES } from '../charts/flame-interlock/flame-interlock.causes.ts';
import { isTripped, latchedCauses, regionState } from '../charts/flame-interlock/flame-interlock.guards.ts';
import type { WeigherState } from '../charts/weigher/weigher.machine.ts';
import { ALARMS } from './alarms.ts';
import { enterBatchStep, enterProcedure } from './batch-work.ts';
import { enterCampaign } from './campaign-work.ts';
import type { ChartId, WeigherId } from './line.types.ts';
import { addMark, markAlarm, openBlock } from './ribbon.ts';
import { enterWeigher } from './weigh-work.ts';
import { leafOf } from './words.ts';
import { moveChart, tell, type Work } from './work.ts';

const reactToInterlock = (work: Work, before: AnyMachineSnapshot, after: AnyMachineSnapshot): void => {
  const was = latchedCauses(before.value as never);
  const is = latchedCauses(after.value as never);
  if (is.length === 0 || is.join() === was.join()) return;
  // The emergency stop takes over the latch of an earlier trip: told again, but not counted as another trip.
  if (!isTripped(before.value as never)) work.line.trips += 1;
  tell(work, { is: 'tripLatched', causes: is });
  // A reset clears the way; it starts nothing (ISO 13850, ISO 12100).
  work.line.batchesAhead = 0;
  addMark(work, 'trip', `Tripped: ${is.map((id) => `${id} ${CAUSES[id].cause}`).join(', ')}`);
};

const reactToAlarm = (
  work: Work,
  chart: ChartId,
  before: AnyMachineSnapshot,
  after: AnyMachineSnapshot,
): void => {
  const was = alarmState(before.value as never);
  const is = alarmState(after.value as never);
  if (was === is) return;
  const id = chart.slice('alarm:'.length);
  const { line } = work;
  if (is === 'unacknowledged' || line.alarms[id] === undefined)
    line.alarms = { ...line.alarms, [id]: { sinceTick: line.tick, untilTick: null } };
  tell(work, { is: 'alarmChanged', alarm: id, state: is, by: null, reason: null });
  if (is === 'unacknowledged') markAlarm(work, ALARMS.find((alarm) => alarm.id === id)?.text ?? id);
};

const drumIsPurged = (work: Work): boolean =>
  regionState(work.line.charts.interlock?.value as never, 'dryer') === 'purged';

const react = (work: Work, chart: ChartId, before: AnyMachineSnapshot, after: AnyMachineSnapshot): void => {
  switch (chart) {
    case 'interlock':
      reactToInterlock(work, before, after);
      return;
    case 'burner':
      if (leafOf(before.value) !== leafOf(after.value))
        tell(work, { is: 'burnerEntered', state: leafOf(after.value) });
      return;
    case 'oilHeater':
      if (leafOf(before.value) !== leafOf(after.value))
        tell(work, { is: 'heaterEntered', state: leafOf(after.value) });
      return;
    case 'aggregateWeigher':
    case 'dryWeigher':
    case 'binderWeigher':
      if (before.value !== after.value) enterWeigher(work, chart as WeigherId, after.value as WeigherState);
      return;
    case 'campaign': {
      const stage = after.value as CampaignState;
      if (before.value === stage) return;
      work.line.stageTick = work.line.tick;
      enterCampaign(work, before.value as CampaignState, stage);
      drive(work, 'burner', wantsHighFire(stage) ? 'line.fireHigh' : 'line.fireLow');
      if (stage === 'puttingOut') {
        drive(work, 'burner', 'line.putOutBurner');
        // Put out before its first purge was over, the burner rests unpurged: air goes through the drum all the same.
        if (!drumIsPurged(work)) drive(work, 'burner', 'line.purgeDrum');
      }
      openBlock(work);
      return;
    }
    case 'batch': {
      const was = before.value as BatchValue;
      const is = after.value as BatchValue;
      if (was.procedure !== is.procedure) {
        // A step that goes on after a hold is timed anew.
        if (is.procedure === 'running') work.line.stepTick = work.line.tick;
        enterProcedure(work, is.procedure);
      }
      if (was.step !== is.step) {
        work.line.stepTick = work.line.tick;
        enterBatchStep(work, is.step);
      }
      openBlock(work);
      return;
    }
    default:
      if (chart.startsWith('alarm:')) reactToAlarm(work, chart, before, after);
  }
};

/** Sends an event to a chart and does what follows from its move; true when it moved. */
export const drive = (work: Work, chart: ChartId, eventType: string): boolean => {
  const moved = moveChart(work, chart, eventType);
  if (moved === null) return false;
  react(work, chart, moved.before, moved.after);
  return true;
};
