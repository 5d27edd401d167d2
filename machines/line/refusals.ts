/** Why a command would be refused now, in words a person can act on. Empty: it would be carried out. */
import { alarmState } from '../charts/alarm/alarm.guards.ts';
import { campaignUsesHopper } from '../charts/campaign/campaign.guards.ts';
import { CAUSES, type InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import {
  isTripped,
  lightingBlockedBy,
  regionState,
  resetBlockedBy,
} from '../charts/flame-interlock/flame-interlock.guards.ts';
import { isOutOfTolerance } from '../charts/weigher/weigher.guards.ts';
import { dryTargets } from '../mix/batch-targets.ts';
import { mayGive, PERMISSIONS, WITHOUT_CONTROLS } from '../people/permissions.ts';
import { ALARMS, bayGrams } from './alarms.ts';
import type { Command, CommandEnvelope } from './commands.ts';
import type { ChartId, Line } from './line.types.ts';
import {
  batchValue,
  campaignState,
  chartValue,
  drawsDried,
  mixById,
  presentMix,
  presentOrder,
  WEIGHER_IDS,
  weigherState,
} from './lookup.ts';

type By = CommandEnvelope['by'];

/** Permissives and trips by ID, as "FI-03 Extraction is not proved. Get the fan running." */
export const causeInWords = (id: InterlockCauseId): string => {
  const { words } = CAUSES[id];
  return `${id} ${words.unmet}. ${words.clear}`;
};

const hasControls = (line: Line, by: By): boolean =>
  line.seat.holder !== null &&
  line.seat.holder.console === by.console &&
  line.seat.holder.person === by.person;

const held = (line: Line, name: string): string[] => {
  const { procedure } = batchValue(line);
  return procedure === 'held' ? [] : [`The batch is ${procedure}, not held: ${name} is for a held batch.`];
};

const interlockReasons = (line: Line): string[] =>
  isTripped(chartValue(line, 'interlock') as never)
    ? ['The flame interlock is tripped: clear its cause and reset it first.']
    : [];

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
  if (!line.signals.hopperEmpty && !drawsDried(mix))
    because.push(`The weigh hopper holds ${line.readings.hopperKg} kg: dump it first.`);
  if (!line.signals.mixerEmpty) because.push('The pug mill is not empty: dump it first.');
  const bucket = line.weighers.binderWeigher.tasks[0];
  if (line.readings.bucketKg > 0.5 && bucket !== undefined && bucket.material !== mix.family)
    because.push(`The binder bucket holds ${bucket.material}: dump it before making ${mix.family} mix.`);
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
  }
  const bay = plant.bays.find((one) => one.id === order.bay);
  if (bay !== undefined && bayGrams(line, bay.id) + mix.batchKg * 1000 > bay.capacityT * 1e6)
    because.push(`${bay.name} is full: choose an order for another bay.`);
  return because;
};

const reasonsAgainstLight = (line: Line): string[] => {
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

const reasonsAgainstCampaign = (line: Line, batches: number): string[] => {
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
    because.push(`The weigh hopper holds ${line.readings.hopperKg} kg: dump it first.`);
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

const alarmChart = (line: Line, id: string): unknown => chartValue(line, `alarm:${id}` as ChartId);

const alarmReasons = (line: Line, id: string, allowed: readonly string[], verb: string): string[] => {
  const definition = ALARMS.find((one) => one.id === id);
  if (definition === undefined) return [`There is no alarm called ${id}.`];
  const state = alarmState(alarmChart(line, id) as never);
  return allowed.includes(state) ? [] : [`“${definition.text}” is ${state}: it cannot be ${verb}.`];
};

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
      return WEIGHER_IDS.some((id) => weigherState(line, id) === 'light') ? [] : ['No weight is light.'];
    case 'acceptWeight':
      return WEIGHER_IDS.some((id) => isOutOfTolerance(weigherState(line, id)))
        ? []
        : ['No weight is outside its tolerance.'];
    case 'dump':
      if (['dumping', 'dumpClearing', 'dumped'].includes(value.step)) return ['It is being dumped already.'];
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
      return ['idle', 'puttingOut', 'cooling', 'available'].includes(stage)
        ? ['There is no drying campaign to end.']
        : [];
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
      ).concat(
        command.alarm === 'interlock-tripped' || command.alarm === 'vapour-high'
          ? ['This alarm protects people: it cannot be shelved.']
          : [],
      );
    case 'unshelve':
      return alarmReasons(line, command.alarm, ['shelved'], 'unshelved');
    case 'outOfService':
      return alarmReasons(
        line,
        command.alarm,
        ['normal', 'unacknowledged', 'acknowledged', 'returned unacknowledged', 'shelved'],
        'taken out of service',
      ).concat(
        command.alarm === 'interlock-tripped' || command.alarm === 'vapour-high'
          ? ['This alarm protects people: it cannot be taken out of service.']
          : [],
      );
    case 'returnToService':
      return alarmReasons(line, command.alarm, ['out of service'], 'returned to service');
    case 'takeSample':
      return line.lots.some((lot) => lot.samples.some((sample) => sample.state === 'due'))
        ? []
        : ['No sample is due.'];
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
    case 'emergencyStop':
      return line.readings.emergencyStop === 1 ? ['The emergency stop is pressed already.'] : [];
    case 'releaseEmergencyStop':
      return line.readings.emergencyStop === 0 ? ['The emergency stop is not pressed.'] : [];
    case 'endShift':
      if (line.ended) return ['The shift has ended already.'];
      if (value.step !== 'ready') return ['A batch is in progress: finish it or dump it first.'];
      if (
        line.signals.burnerRunning ||
        ['lighting', 'charging', 'drying', 'emptying', 'counting', 'puttingOut'].includes(stage)
      )
        return ['The dryer is working: put the burner out and let it purge first.'];
      return [];
    default:
      return [];
  }
};

const seatReasons = (line: Line, command: Command, by: By): string[] => {
  const holder = line.seat.holder;
  switch (command.do) {
    case 'takeControls':
      if (holder === null || holder.console === 'stand-in') return [];
      if (holder.console === by.console && holder.person === by.person)
        return ['You have the controls already.'];
      return ['Somebody else has the controls: ask for them.'];
    case 'askForControls':
      if (holder === null) return ['Nobody has the controls: take them.'];
      if (hasControls(line, by)) return ['You have the controls already.'];
      return line.seat.askedBy !== null && line.seat.askedBy.console !== by.console
        ? ['Another console has asked already.']
        : [];
    case 'handOver':
      return line.seat.askedBy === null ? ['Nobody has asked for the controls.'] : [];
    case 'declineRequest':
      return line.seat.askedBy === null ? ['Nobody has asked for the controls.'] : [];
    case 'standIn':
      return holder === null || holder.console === 'stand-in' || hasControls(line, by)
        ? []
        : ['Somebody else has the controls: ask for them.'];
    default:
      if (WITHOUT_CONTROLS.includes(command.do)) return [];
      if (hasControls(line, by)) return [];
      return [
        holder === null ? 'Take the controls first.' : 'Another console has the controls: ask for them.',
      ];
  }
};

/** All reasons against a command from this person: role, seat and state. */
export const reasonsAgainst = (line: Line, command: Command, by: By): string[] => {
  if (!mayGive(by.role, command.do))
    return [
      `${/^[aeiou]/.test(by.role) ? 'An' : 'A'} ${by.role} may not do this; it is for: ${PERMISSIONS[command.do].join(', ')}.`,
    ];
  const seat = seatReasons(line, command, by);
  if (seat.length > 0) return seat;
  if (
    line.ended &&
    ![
      'takeControls',
      'askForControls',
      'handOver',
      'releaseControls',
      'declineRequest',
      'acknowledge',
      'takeSample',
    ].includes(command.do)
  )
    return ['The shift has ended.'];
  return stateReasons(line, command);
};
