/** What speaks against commands of upkeep and tanks. */
import {
  CAUSES,
  type InterlockCauseId,
  isCauseId,
} from '../charts/flame-interlock/flame-interlock.causes.ts';
import { INHIBITABLE, UPKEEP } from '../charts/flame-interlock/flame-interlock.upkeep.ts';
import type { Command, CommandEnvelope } from './commands.ts';
import type { Line, Product } from './line.types.ts';
import { isInhibited } from './maintenance.ts';
import { roomKg } from './tank-care.ts';

type By = CommandEnvelope['by'];

const OK: string[] = [];

const noCause = (id: string): string[] => [
  `There is no cause called ${id}: see the table of the interlocks for the IDs.`,
];

const inhibitReasons = (line: Line, id: string, minutes: number): string[] => {
  if (!isCauseId(id)) return noCause(id);
  const most = UPKEEP[id].inhibitMin;
  if (most === 0)
    return [
      `${id} ${CAUSES[id].words.met}: this can never be inhibited, by anyone, for any reason. Test it with the plant at rest. Only ${INHIBITABLE.join(' and ')} may be inhibited for testing.`,
    ];
  if (line.maintenance.inhibits[id] !== undefined)
    return [
      isInhibited(line, id)
        ? `${id} is inhibited already.`
        : `${id} waits for a second person to confirm it already.`,
    ];
  return minutes > most ? [`${id} may be inhibited for ${most} minutes at most: ask for less.`] : OK;
};

const confirmInhibitReasons = (line: Line, id: string, by: By): string[] => {
  if (!isCauseId(id)) return noCause(id);
  const asked = line.maintenance.inhibits[id];
  if (asked === undefined) return [`Nobody has asked to inhibit ${id}.`];
  if (asked.confirmedBy !== null) return [`${id} is inhibited already.`];
  return asked.by.person === by.person ? ['You asked for it yourself: a second person must confirm it.'] : OK;
};

const hotWorkReasons = (line: Line): string[] => {
  const because: string[] = [];
  if (line.maintenance.permit !== null)
    because.push(`Hot work permit ${line.maintenance.permit.n} is open: close it first.`);
  if (line.signals.cutbackInBucket)
    because.push('There is cutback in the binder bucket: use or dump it first.');
  if (line.signals.cutbackInMixer)
    because.push('There is cutback mix in the pug mill: discharge or dump it first.');
  if (!line.signals.vapourLow)
    because.push('Vapour at the hood is not low: let the hood fan clear it first.');
  if (line.signals.cutbackVentHigh || line.readings.ventLelPct >= line.scenario.plant.limits.vapourWarnLelPct)
    because.push('There is vapour at the tank vents: let the tanks cool first.');
  if (line.signals.cutbackDelivery || line.signals.emulsionDelivery)
    because.push('A delivery is under way: finish it first.');
  return because;
};

const deliveryReasons = (line: Line, command: Extract<Command, { do: 'receiveDelivery' }>): string[] => {
  const because: string[] = [];
  const memo = line.tankMemos[command.tank];
  if (memo.delivery !== null) because.push('A delivery into this tank is under way: end it first.');
  if (command.product !== command.tank)
    because.push(
      `The ticket says ${command.product} and this tank is for ${command.tank}: send the truck to the other tank, or away.`,
    );
  if (line.maintenance.permit !== null) because.push('A hot work permit is open: close it first.');
  if (line.readings.emergencyStop === 1 || line.readings.powerOk === 0)
    because.push('The plant is stopped: make it safe first.');
  const room = roomKg(line, command.tank);
  if (command.kg > room) because.push(`The tank has room for ${room} kg: take less.`);
  return because;
};

const confirmDeliveryReasons = (line: Line, tank: Product, by: By): string[] => {
  const { delivery } = line.tankMemos[tank];
  if (delivery === null)
    return ['No delivery into this tank is under way; a supervisor can identify its contents.'];
  // A wrong cutback costs lives: two people look at ticket and sample.
  return tank === 'cutback' && delivery.by.person === by.person
    ? ['You received it yourself: a second person must look at ticket and sample.']
    : OK;
};

/** Reasons against a command of upkeep or tanks; null when it is none of them. */
export const careReasons = (line: Line, command: Command, by: By): string[] | null => {
  switch (command.do) {
    case 'proveCause':
      return isCauseId(command.cause) ? OK : noCause(command.cause);
    case 'inhibitCause':
      return inhibitReasons(line, command.cause, command.minutes);
    case 'confirmInhibit':
      return confirmInhibitReasons(line, command.cause, by);
    case 'liftInhibit':
      return line.maintenance.inhibits[command.cause as InterlockCauseId] === undefined
        ? [`${command.cause} is not inhibited.`]
        : OK;
    case 'openHotWork':
      return hotWorkReasons(line);
    case 'closeHotWork':
      return line.maintenance.permit === null ? ['No hot work permit is open.'] : OK;
    case 'receiveDelivery':
      return deliveryReasons(line, command);
    case 'confirmDelivery':
      return confirmDeliveryReasons(line, command.tank, by);
    case 'endDelivery':
      return line.tankMemos[command.tank].delivery === null
        ? ['No delivery into this tank is under way.']
        : OK;
    case 'identifyTank':
      return line.tankMemos[command.tank].delivery === null
        ? OK
        : ['A delivery into this tank is under way: end it first.'];
    default:
      return null;
  }
};
