/** What the state of the line says against a command, whoever gives it. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { campaignUsesHopper } from '../charts/campaign/campaign.guards.ts';
import { isTripped, regionState, resetBlockedBy } from '../charts/flame-interlock/flame-interlock.guards.ts';
import { ALARMS } from './alarms.ts';
import type { Command } from './commands.ts';
import type { ChartId, Line } from './line.types.ts';
import {
  batchValue,
  binsNow,
  campaignState,
  chartValue,
  drawsDried,
  mixById,
  netKg,
  WEIGHER_IDS,
  weigherState,
} from './lookup.ts';
import { sampleReasons } from './refusals-sample.ts';
import {
  causeInWords,
  interlockReasons,
  reasonsAgainstCampaign,
  reasonsAgainstEnd,
  reasonsAgainstLight,
  reasonsAgainstStart,
  ZERO_LIMIT_KG,
} from './refusals-start.ts';
import { leastGateTicks } from './watch.ts';

const held = (line: Line, name: string): string[] => {
  const { procedure } = batchValue(line);
  return procedure === 'held' ? [] : [`The batch is ${procedure}, not held: ${name} is for a held batch.`];
};

const alarmChart = (line: Line, id: string): unknown => chartValue(line, `alarm:${id}` as ChartId);

const alarmReasons = (line: Line, id: string, allowed: readonly string[], verb: string): string[] => {
  const definition = ALARMS.find((one) => one.id === id);
  if (definition === undefined) return [`There is no alarm called ${id}.`];
  const state = alarmState(alarmChart(line, id) as never);
  return allowed.includes(state) ? [] : [`“${definition.text}” is ${state}: it cannot be ${verb}.`];
};

const protectedReasons = (id: string, verb: string): string[] =>
  ALARMS.some((alarm) => alarm.id === id && alarm.protectsPeople === true)
    ? [`This alarm protects people: it cannot be ${verb}.`]
    : [];

/** What the state of the line says against a command; who asks is not looked at here. */
export const stateReasons = (line: Line, command: Command): string[] => {
  const value = batchValue(line);
  const stage = campaignState(line);
  switch (command.do) {
    case 'start':
      return reasonsAgainstStart(line);
    case 'hold':
      return value.procedure === 'running' || value.procedure === 'restarting'
        ? []
        : ['No batch is running: there is nothing to hold.'];
    case 'restart':
      return [
        ...held(line, 'restart'),
        ...interlockReasons(line),
        ...(line.signals.weightOutOfTolerance
          ? ['A weight is outside its tolerance: top up, have it accepted, or dump.']
          : []),
      ];
    case 'stop':
      return ['running', 'holding', 'held', 'restarting'].includes(value.procedure)
        ? []
        : [`The batch is ${value.procedure}: there is nothing to stop.`];
    case 'abort':
      return ['idle', 'aborting', 'aborted', 'complete'].includes(value.procedure)
        ? [`The batch is ${value.procedure}: there is nothing to abort.`]
        : [];
    case 'reset':
      if (value.procedure !== 'stopped' && value.procedure !== 'aborted')
        return [`The batch is ${value.procedure}: reset is for a stopped or aborted batch.`];
      return value.step === 'ready' ? [] : ['Material is left in the plant: dump it first.'];
    case 'confirmLook':
    case 'extendMix':
      return value.procedure === 'running' && value.step === 'looking'
        ? []
        : ['There is nothing to look at yet: mixing has not finished.'];
    case 'topUp':
      if (['stopping', 'stopped', 'aborting', 'aborted'].includes(value.procedure))
        return [`The batch is ${value.procedure}: nothing is fed to it any more.`];
      return WEIGHER_IDS.some((id) => ['light', 'stalled'].includes(weigherState(line, id)))
        ? []
        : ['No weight is light.'];
    case 'confirmEmpty':
      if (!line.outputs.mixerGate || !['discharging', 'dumping'].includes(value.step))
        return ['The mixer gate is not open: discharge or dump first, then look.'];
      return line.watch.mixerGateTicks < leastGateTicks(line)
        ? ['The gate has not been open long enough for the mill to have run empty: wait, then look.']
        : [];
    case 'zeroScale': {
      const tag = command.scale === 'hopper' ? 'hopperKg' : 'bucketKg';
      const kg = netKg(line, tag);
      const weigher = command.scale === 'hopper' ? 'aggregateWeigher' : 'binderWeigher';
      if (
        weigherState(line, weigher) !== 'idle' &&
        line.outputs.hopperTo === 'shut' &&
        !line.outputs.bucketValve
      )
        return [`The ${command.scale} is in use: zero it when it should be empty.`];
      return Math.abs(kg) > ZERO_LIMIT_KG[tag]
        ? [
            `The ${command.scale} reads ${kg} kg, more than ${ZERO_LIMIT_KG[tag]} kg from zero: empty it or have the scale mended.`,
          ]
        : [];
    }
    case 'acceptWeight':
      return WEIGHER_IDS.some((id) => ['light', 'heavy'].includes(weigherState(line, id)))
        ? []
        : ['No weight is outside its tolerance.'];
    case 'dump':
      if (value.procedure === 'running' && ['dumping', 'dumpClearing', 'dumped'].includes(value.step))
        return ['It is being dumped already.'];
      if (interlockReasons(line).length > 0) return interlockReasons(line);
      if (campaignUsesHopper(stage)) return ['The drying campaign is using hopper and drum: end it first.'];
      if (value.procedure === 'idle')
        return line.signals.hopperEmpty && line.signals.mixerEmpty && line.signals.bucketEmpty
          ? ['Hopper, bucket and pug mill are empty: there is nothing to dump.']
          : [];
      return ['held', 'stopped', 'aborted'].includes(value.procedure) || value.step === 'looking'
        ? []
        : ['Hold or stop the batch first.'];
    case 'startCampaign':
      return reasonsAgainstCampaign(line, command.batches);
    case 'acknowledgeCautions':
      return stage === 'cautions' ? [] : ['There is no card of cautions to acknowledge now.'];
    case 'lightBurner':
      return reasonsAgainstLight(line);
    case 'putOutBurner':
      return ['lighting', 'charging', 'drying', 'emptying', 'counting', 'flameLost'].includes(stage)
        ? []
        : ['The burner is not lit.'];
    case 'endCampaign':
      return reasonsAgainstEnd(line);
    case 'resetBurner':
      return line.signals.burnerLockedOut ? [] : ['The burner is not locked out.'];
    case 'purgeDrum':
      if (chartValue(line, 'burner') !== 'off')
        return ['The burner is not off: its own purge is part of lighting and putting out.'];
      return regionState(chartValue(line, 'interlock') as never, 'dryer') === 'purged'
        ? ['The drum is purged already.']
        : [];
    case 'resetTrip': {
      if (!isTripped(chartValue(line, 'interlock') as never)) return ['The flame interlock is not tripped.'];
      return resetBlockedBy(chartValue(line, 'interlock') as never).map(
        (id) => `Its cause still stands: ${causeInWords(id)}`,
      );
    }
    case 'heatTank': {
      const off = chartValue(line, `${command.tank}Tank`) === 'off';
      if (command.on) return off ? [] : ['This tank is being heated already.'];
      return off ? ['This tank is not being heated.'] : [];
    }
    case 'resetHeater':
      return typeof chartValue(line, 'oilHeater') === 'object' &&
        'lockedOut' in (chartValue(line, 'oilHeater') as object)
        ? []
        : ['The thermal-oil heater is not locked out.'];
    case 'acknowledge':
      return alarmReasons(line, command.alarm, ['unacknowledged', 'returned unacknowledged'], 'acknowledged');
    case 'shelve':
      return alarmReasons(
        line,
        command.alarm,
        ['normal', 'unacknowledged', 'acknowledged', 'returned unacknowledged'],
        'shelved',
      ).concat(protectedReasons(command.alarm, 'shelved'));
    case 'unshelve':
      return alarmReasons(line, command.alarm, ['shelved'], 'unshelved');
    case 'outOfService':
      return alarmReasons(
        line,
        command.alarm,
        ['normal', 'unacknowledged', 'acknowledged', 'returned unacknowledged', 'shelved'],
        'taken out of service',
      ).concat(protectedReasons(command.alarm, 'taken out of service'));
    case 'returnToService':
      return alarmReasons(line, command.alarm, ['out of service'], 'returned to service');
    case 'takeSample':
      return sampleReasons(line, command);
    case 'chooseOrder': {
      if (command.order > line.orders.length)
        return [`There are ${line.orders.length} orders in this shift.`];
      if (value.step !== 'ready' || value.procedure !== 'idle')
        return ['A batch is in progress: finish it first.'];
      if (line.weighers.aggregateWeigher.purpose === 'batch')
        return ['The hopper is loaded for the present order.'];
      const next = line.orders[command.order - 1];
      if (next !== undefined && !drawsDried(mixById(line, next.mixId)) && campaignUsesHopper(stage))
        return ['A drying campaign is going on: end it, or let it finish drying.'];
      return [];
    }
    case 'refillBin':
      return command.bin <= line.scenario.plant.bins.length
        ? []
        : [`This plant has ${line.scenario.plant.bins.length} bins.`];
    case 'setMoisture': {
      const bin = binsNow(line)[command.bin - 1];
      if (bin === undefined) return [`This plant has ${line.scenario.plant.bins.length} bins.`];
      return bin.testedMoisturePct === command.pct
        ? [`${bin.name} is weighed for ${command.pct} % moisture already.`]
        : [];
    }
    case 'emergencyStop':
      // Never refused: pressing it again does no harm, and whoever presses it has a reason.
      return [];
    case 'releaseEmergencyStop':
      return line.readings.emergencyStop === 0 ? ['The emergency stop is not pressed.'] : [];
    case 'endShift':
      if (line.ended) return ['The shift has ended already.'];
      if (value.step !== 'ready') return ['A batch is in progress: finish it or dump it first.'];
      if (
        chartValue(line, 'burner') !== 'off' ||
        !['idle', 'cautions', 'readyToLight', 'cooling', 'available', 'runningOut'].includes(stage)
      )
        return ['The dryer is working: put the burner out and let it purge first.'];
      return [];
    default:
      return [];
  }
};
