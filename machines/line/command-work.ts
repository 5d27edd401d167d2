/** Carries out one command that nothing speaks against. */
import { isOutOfTolerance } from '../charts/weigher/weigher.guards.ts';
import type { EquipmentFault, InstrumentFault } from '../field/outputs.ts';
import type { Tag } from '../field/tags.ts';
import { dryTargets } from '../mix/batch-targets.ts';
import type { Role } from '../scenario/people.schema.ts';
import { startBatch } from './batch-start.ts';
import { careFor } from './care-work.ts';
import type { CommandEnvelope } from './commands.ts';
import type { Who } from './facts.ts';
import { handoverOf } from './handover.ts';
import type { ChartId, WeigherId } from './line.types.ts';
import {
  batchValue,
  binsNow,
  campaignState,
  netKg,
  presentMix,
  WEIGHER_IDS,
  weigherState,
} from './lookup.ts';
import { callSample, closeLot, commitPlan, openPlan, takeDueSample } from './lot-work.ts';
import { machineOf } from './machines.ts';
import { drive } from './reactions.ts';
import { addMark, openBlock } from './ribbon.ts';
import { TICKS_ENOUGH } from './watch.ts';
import { beginChart, tell, type Work } from './work.ts';

type By = CommandEnvelope['by'] & { readonly role: Role };

const seatOf = (by: By) => ({ person: by.person, role: by.role, console: by.console });

const outWeighers = (work: Work): WeigherId[] =>
  WEIGHER_IDS.filter((id) => isOutOfTolerance(weigherState(work.line, id)));

const alarmMove = (work: Work, id: string, event: string, who: Who, reason: string | null): void => {
  const chart: ChartId = `alarm:${id}`;
  drive(work, chart, event);
  const told = work.facts.findLastIndex((fact) => fact.is === 'alarmChanged' && fact.alarm === id);
  const fact = work.facts[told];
  if (fact !== undefined && fact.is === 'alarmChanged') work.facts[told] = { ...fact, by: who, reason };
};

const dump = (work: Work, who: Who & { role: By['role'] }, reason: string): void => {
  const { line } = work;
  line.batchesAhead = 0;
  if (line.batch !== null) line.batch = { ...line.batch, dumping: { reason, by: who } };
  drive(work, 'batch', 'operator.dump');
};

const injectFault = (
  work: Work,
  target: Extract<CommandEnvelope['command'], { do: 'injectFault' }>['target'],
  who: Who,
): void => {
  const { line } = work;
  if ('tag' in target) {
    const fault: InstrumentFault =
      target.fault === 'drift' ? { fault: 'drift', perHour: target.perHour } : { fault: target.fault };
    work.asks.push({ ask: 'instrumentFault', tag: target.tag as Tag, fault });
    line.faults = { ...line.faults, [target.tag]: target.fault };
    tell(work, { is: 'faultInjected', target: target.tag, fault: target.fault, by: who });
  } else {
    work.asks.push({ ask: 'equipmentFault', equipment: target.equipment as EquipmentFault, on: true });
    line.faults = { ...line.faults, [target.equipment]: 'on' };
    tell(work, { is: 'faultInjected', target: target.equipment, fault: 'on', by: who });
  }
};

const clearFault = (
  work: Work,
  target: Extract<CommandEnvelope['command'], { do: 'clearFault' }>['target'],
  who: Who,
): void => {
  const name = 'tag' in target ? target.tag : target.equipment;
  if ('tag' in target) work.asks.push({ ask: 'instrumentFault', tag: target.tag as Tag, fault: null });
  else work.asks.push({ ask: 'equipmentFault', equipment: target.equipment as EquipmentFault, on: false });
  const { [name]: _gone, ...rest } = work.line.faults;
  work.line.faults = rest;
  tell(work, { is: 'faultCleared', target: name, by: who });
};

/** What is weighed from now on is corrected by this test; a weigh-up under way keeps its targets. */
const setMoisture = (
  work: Work,
  { bin, pct, source }: Extract<CommandEnvelope['command'], { do: 'setMoisture' }>,
  who: Who,
): void => {
  const { line } = work;
  const was = binsNow(line)[bin - 1]?.testedMoisturePct ?? 0;
  line.moisturePct = { ...line.moisturePct, [String(bin)]: pct };
  tell(work, { is: 'moistureSet', bin, was, now: pct, source, by: who });
};

/** What the sealed sampling plan asks for. */
const carryOutPlan = (work: Work, command: CommandEnvelope['command']): void => {
  if (command.do === 'commitPlan') commitPlan(work, command);
  else if (command.do === 'callSample') callSample(work, command);
  else if (command.do === 'openPlan') openPlan(work, command);
};

/** Does what was asked. Refusals were settled before; reactions of charts do most of the work. */
export const carryOut = (work: Work, envelope: CommandEnvelope): void => {
  const { line } = work;
  const { command } = envelope;
  const { role } = envelope.by;
  if (role === 'line') {
    carryOutPlan(work, command);
    return;
  }
  const by = { ...envelope.by, role };
  const who = { person: by.person, role };
  if (careFor(work, envelope)) return;
  switch (command.do) {
    case 'takeControls':
      drive(work, 'seat', 'operator.takeControls');
      line.seat = { holder: seatOf(by), askedBy: null, standIn: null };
      tell(work, { is: 'controlsTaken', by: who, console: by.console });
      return;
    case 'askForControls':
      drive(work, 'seat', 'operator.askForControls');
      line.seat = { ...line.seat, askedBy: seatOf(by) };
      tell(work, { is: 'controlsAskedFor', by: who });
      return;
    case 'handOver': {
      const next = line.seat.askedBy;
      drive(work, 'seat', 'operator.handOver');
      line.seat = { holder: next, askedBy: null, standIn: null };
      if (next !== null)
        tell(work, {
          is: 'controlsTaken',
          by: { person: next.person, role: next.role },
          console: next.console,
        });
      return;
    }
    case 'declineRequest':
      drive(work, 'seat', 'operator.declineRequest');
      line.seat = { ...line.seat, askedBy: null };
      return;
    case 'releaseControls':
      drive(work, 'seat', 'operator.releaseControls');
      line.seat = { holder: null, askedBy: null, standIn: null };
      tell(work, { is: 'controlsReleased', by: who });
      return;
    case 'standIn':
      standIn(work, command.skill, who);
      return;
    case 'start':
      line.batchesAhead = command.batches - 1;
      startBatch(work, who);
      return;
    case 'hold':
    case 'restart':
    case 'stop':
    case 'abort':
    case 'reset':
      drive(work, 'batch', `operator.${command.do}`);
      return;
    case 'extendMix':
      drive(work, 'batch', 'operator.extendMix');
      if (line.batch !== null) tell(work, { is: 'mixExtended', batch: line.batch.n, by: who });
      return;
    case 'confirmLook':
      if (line.batch !== null) line.batch = { ...line.batch, coatedPct: line.readings.sightCoatedPct };
      if (line.batch !== null)
        tell(work, {
          is: 'lookConfirmed',
          batch: line.batch.n,
          by: who,
          coatedPct: line.readings.sightCoatedPct,
          mixedS: Math.round(line.batch.mixedTicks / 10),
        });
      drive(work, 'batch', 'operator.confirmLook');
      return;
    case 'topUp':
      for (const id of outWeighers(work)) drive(work, id, 'operator.topUp');
      return;
    case 'confirmEmpty':
      line.watch = { ...line.watch, mixerEmptyTicks: TICKS_ENOUGH };
      tell(work, { is: 'emptyConfirmed', motorA: line.readings.mixerMotorA, by: who });
      return;
    case 'zeroScale': {
      const tag = command.scale === 'hopper' ? 'hopperKg' : 'bucketKg';
      tell(work, { is: 'scaleZeroed', scale: command.scale, fromKg: netKg(line, tag), by: who });
      line.zeros = { ...line.zeros, [tag]: line.readings[tag] };
      return;
    }
    case 'acceptWeight':
      work.accepting = { by: who, reason: command.reason };
      for (const id of outWeighers(work)) drive(work, id, 'operator.acceptWeight');
      work.accepting = null;
      return;
    case 'dump':
      dump(work, who, command.reason);
      return;
    case 'startCampaign': {
      const mix = presentMix(line);
      line.campaigns += 1;
      line.campaign = {
        n: line.campaigns,
        mixId: mix.id,
        batches: command.batches,
        wantedKg: Math.round(command.batches * dryTargets(mix).dryKg),
        charges: 0,
        binFromKg: line.readings.holdingBinKg,
        fuelTicks: 0,
      };
      drive(work, 'campaign', 'operator.startCampaign');
      return;
    }
    case 'acknowledgeCautions':
      drive(work, 'campaign', 'operator.acknowledgeCautions');
      tell(work, { is: 'cautionsAcknowledged', by: who, campaign: line.campaign?.n ?? 0 });
      return;
    case 'lightBurner':
      drive(work, 'burner', 'operator.lightBurner');
      drive(work, 'campaign', 'operator.lightBurner');
      return;
    case 'putOutBurner':
      drive(work, 'burner', 'operator.putOutBurner');
      drive(work, 'campaign', 'operator.putOutBurner');
      if (campaignState(line) === 'flameLost') drive(work, 'campaign', 'operator.endCampaign');
      return;
    case 'endCampaign':
      drive(work, 'campaign', 'operator.endCampaign');
      return;
    case 'resetBurner':
      drive(work, 'burner', 'operator.resetBurner');
      return;
    case 'purgeDrum':
      drive(work, 'burner', 'operator.purgeDrum');
      return;
    case 'resetTrip':
      if (drive(work, 'interlock', 'operator.resetTrip')) tell(work, { is: 'tripReset', by: who });
      return;
    case 'heatTank':
      drive(work, `${command.tank}Tank`, command.on ? 'operator.heatOn' : 'operator.heatOff');
      return;
    case 'resetHeater':
      drive(work, 'oilHeater', 'operator.resetHeater');
      return;
    case 'acknowledge':
      alarmMove(work, command.alarm, 'operator.acknowledge', who, null);
      return;
    case 'shelve':
      line.shelveMinutes = { ...line.shelveMinutes, [command.alarm]: command.minutes };
      alarmMove(work, command.alarm, 'operator.shelve', who, command.reason);
      line.alarms = {
        ...line.alarms,
        [command.alarm]: {
          sinceTick: line.alarms[command.alarm]?.sinceTick ?? line.tick,
          untilTick: line.tick + command.minutes * 600,
        },
      };
      return;
    case 'unshelve':
      alarmMove(work, command.alarm, 'operator.unshelve', who, null);
      return;
    case 'outOfService':
      alarmMove(work, command.alarm, 'operator.outOfService', who, command.reason);
      return;
    case 'returnToService':
      alarmMove(work, command.alarm, 'operator.returnToService', who, null);
      return;
    case 'takeSample': {
      const taken = takeDueSample(work, command);
      if (taken !== null) tell(work, { is: 'sampleTaken', ...taken, by: who });
      return;
    }
    case 'chooseOrder':
      chooseOrder(work, command.order, who);
      return;
    case 'refillBin':
      work.asks.push({ ask: 'refillBin', bin: command.bin });
      tell(work, { is: 'binRefillAsked', bin: command.bin, by: who });
      return;
    case 'setMoisture':
      setMoisture(work, command, who);
      return;
    case 'injectFault':
      injectFault(work, command.target, who);
      return;
    case 'clearFault':
      clearFault(work, command.target, who);
      return;
    case 'emergencyStop':
      work.asks.push({ ask: 'emergencyStop', pressed: true });
      tell(work, { is: 'emergencyStopPressed', by: who });
      return;
    case 'releaseEmergencyStop':
      work.asks.push({ ask: 'emergencyStop', pressed: false });
      tell(work, { is: 'emergencyStopReleased', by: who });
      return;
    case 'endShift':
      closeLot(work, 'line.shiftEnded');
      line.ended = true;
      line.batchesAhead = 0;
      tell(work, { is: 'shiftEnded', by: who, handover: handoverOf(work.line, command.notes ?? '') });
      addMark(work, 'person', 'Shift ended');
      openBlock(work);
  }
};

/** The stand-in sits down in the seat as the person the shift names, or gets up from it. */
const standIn = (
  work: Work,
  skill: Extract<CommandEnvelope['command'], { do: 'standIn' }>['skill'],
  who: Who,
): void => {
  const { line } = work;
  const { people, shift } = line.scenario;
  const person =
    people.find((one) => one.id === shift.standIn?.person) ?? people.find((one) => one.role === 'operator');
  if (skill === null || person === undefined) {
    drive(work, 'seat', 'operator.releaseControls');
    line.seat = { holder: null, askedBy: null, standIn: null };
  } else {
    drive(work, 'seat', 'operator.takeControls');
    line.seat = {
      holder: { person: person.id, role: person.role, console: 'stand-in' },
      askedBy: null,
      standIn: skill,
    };
  }
  tell(work, { is: 'standInSwitched', by: who, skill });
};

const chooseOrder = (work: Work, n: number, who: Who): void => {
  const { line } = work;
  const before = machineOf(line, 'batch');
  line.order = n;
  line.batchesAhead = 0;
  const order = line.orders[n - 1];
  const machine = machineOf(line, 'batch');
  if (machine !== before && batchValue(line).step === 'ready') beginChart(work, 'batch', machine);
  if (order !== undefined)
    tell(work, { is: 'orderChosen', order: n, mix: order.mixId, bay: order.bay, by: who });
};
