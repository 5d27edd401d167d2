/** Does what upkeep and tank commands ask, and once a second what hangs on time: inhibits end, drift and foam show. */
import type { InterlockCauseId } from '../charts/flame-interlock/flame-interlock.causes.ts';
import type { Command, CommandEnvelope } from './commands.ts';
import type { Who } from './facts.ts';
import type { Product, TankMemo } from './line.types.ts';
import { CALIBRATION, DRIFT_ENOUGH_S, withoutInhibit } from './maintenance.ts';
import { addMark } from './ribbon.ts';
import { DELIVERY_KG_S, PRODUCTS } from './tank-care.ts';
import { tell, type Work } from './work.ts';

const TICKS_PER_MIN = 600;
/** Foam lifts the dip by so much within five minutes, mm; heat and rain do not. Common practice, no source. */
const FOAM_MM = 40;

const THE_LINE: Who = { person: 'line', role: 'line' };

const setTank = (work: Work, tank: Product, change: Partial<TankMemo>): void => {
  const { line } = work;
  line.tankMemos = { ...line.tankMemos, [tank]: { ...line.tankMemos[tank], ...change } };
};

const endInhibit = (work: Work, cause: InterlockCauseId, why: string, by: Who): void => {
  work.line.maintenance = withoutInhibit(work.line.maintenance, cause);
  tell(work, { is: 'inhibitEnded', cause, why, by });
  addMark(work, 'person', `Inhibit of ${cause} ended: ${why}`);
};

const prove = (work: Work, command: Extract<Command, { do: 'proveCause' }>, who: Who): void => {
  const { line } = work;
  const cause = command.cause as InterlockCauseId;
  const on = line.scenario.shift.date;
  const { result, remark } = command;
  line.maintenance = {
    ...line.maintenance,
    proofs: { ...line.maintenance.proofs, [cause]: { on, result, by: who.person, remark } },
    drift: cause === CALIBRATION && result === 'passed' ? null : line.maintenance.drift,
  };
  if (result === 'passed' && cause === CALIBRATION) {
    line.watch = { ...line.watch, cleanAirS: 0, noVapourS: 0 };
    work.asks.push({ ask: 'calibrateDetector' });
  }
  // The purge proved with a mended flow meter: what it showed before is forgotten.
  if (result === 'passed' && cause === 'FB-01') line.watch = { ...line.watch, fanOffFlowTicks: 0 };
  for (const tank of PRODUCTS)
    if (result === 'passed' && cause === (tank === 'emulsion' ? 'TE-08' : 'TC-08')) {
      setTank(work, tank, { foamed: false });
      work.asks.push({ ask: 'drawWater', tank });
    }
  tell(work, { is: 'causeProved', cause, on, result, remark, by: who });
  addMark(work, 'person', `${cause} proved: ${result}`);
};

/** A delivery is over: what the tank holds follows from what was confirmed, and a wrong product is a doubt that stays. */
const settleContents = (work: Work, tank: Product): void => {
  const memo = work.line.tankMemos[tank];
  const { delivery } = memo;
  if (delivery === null) return;
  const product = delivery.confirmedAs;
  // A doubt from before is not cleared by another truck.
  const sound = product === tank && memo.holds === tank;
  setTank(work, tank, {
    delivery: null,
    holds: sound ? tank : 'not known',
    why: sound
      ? `Delivery ${delivery.ticket} confirmed`
      : product === null
        ? `Delivery ${delivery.ticket} was not confirmed`
        : product === tank
          ? memo.why
          : WRONG,
  });
  if (!sound) tell(work, { is: 'tankDoubted', tank, why: work.line.tankMemos[tank].why });
};

const WRONG = 'The other binder was delivered into it';

/** Carries out a command of upkeep or tanks; false when it is none of them. */
export const careFor = (work: Work, envelope: CommandEnvelope): boolean => {
  const { line } = work;
  const { command, by } = envelope;
  const who: Who = { person: by.person, role: by.role };
  switch (command.do) {
    case 'proveCause':
      prove(work, command, who);
      return true;
    case 'inhibitCause': {
      const cause = command.cause as InterlockCauseId;
      const { minutes, reason } = command;
      const inhibit = { minutes, reason, by: who, confirmedBy: null, untilTick: null };
      line.maintenance = {
        ...line.maintenance,
        inhibits: { ...line.maintenance.inhibits, [cause]: inhibit },
      };
      tell(work, { is: 'inhibitAsked', cause, minutes, reason, by: who });
      return true;
    }
    case 'confirmInhibit': {
      const cause = command.cause as InterlockCauseId;
      const asked = line.maintenance.inhibits[cause];
      if (asked === undefined) return true;
      const { minutes, reason } = asked;
      const inhibit = { ...asked, confirmedBy: who, untilTick: line.tick + minutes * TICKS_PER_MIN };
      line.maintenance = {
        ...line.maintenance,
        inhibits: { ...line.maintenance.inhibits, [cause]: inhibit },
      };
      tell(work, { is: 'causeInhibited', cause, minutes, reason, askedBy: asked.by, by: who });
      addMark(work, 'person', `${cause} inhibited for ${minutes} min`);
      return true;
    }
    case 'liftInhibit':
      endInhibit(work, command.cause as InterlockCauseId, 'lifted by hand', who);
      return true;
    case 'openHotWork': {
      const { where, reason, minutes } = command;
      const n = line.maintenance.permits + 1;
      const untilTick = line.tick + minutes * TICKS_PER_MIN;
      line.maintenance = {
        ...line.maintenance,
        permits: n,
        permit: { n, where, reason, by: who, openedTick: line.tick, untilTick },
      };
      tell(work, { is: 'hotWorkOpened', permit: n, where, reason, minutes, by: who });
      addMark(work, 'person', `Hot work permit ${n} opened: ${where}`);
      return true;
    }
    case 'closeHotWork':
      tell(work, { is: 'hotWorkClosed', permit: line.maintenance.permit?.n ?? 0, by: who });
      addMark(work, 'person', `Hot work permit ${line.maintenance.permit?.n ?? 0} closed`);
      line.maintenance = { ...line.maintenance, permit: null };
      return true;
    case 'receiveDelivery': {
      const { tank, product, kg, ticket } = command;
      const doneTick = line.tick + Math.ceil((kg / DELIVERY_KG_S) * 10);
      setTank(work, tank, {
        delivery: {
          product,
          kg,
          ticket,
          by: who,
          sinceTick: line.tick,
          doneTick,
          confirmedAs: null,
          confirmedBy: null,
        },
      });
      work.asks.push({ ask: 'delivery', tank, product, kg, kgS: DELIVERY_KG_S });
      tell(work, { is: 'deliveryBegun', tank, product, kg, ticket, by: who });
      addMark(work, 'person', `Delivery ${ticket} into the ${tank} tank begun`);
      return true;
    }
    case 'confirmDelivery': {
      const { tank, product } = command;
      const memo = line.tankMemos[tank];
      tell(work, { is: 'deliveryConfirmed', tank, product, by: who });
      if (memo.delivery !== null) {
        setTank(work, tank, { delivery: { ...memo.delivery, confirmedAs: product, confirmedBy: who } });
        // The wrong binder is not pumped in to the last drop.
        if (product !== tank) {
          work.asks.push({ ask: 'deliveryEnds', tank });
          settleContents(work, tank);
          tell(work, { is: 'deliveryEnded', tank, by: who });
        }
      }
      return true;
    }
    case 'endDelivery':
      work.asks.push({ ask: 'deliveryEnds', tank: command.tank });
      settleContents(work, command.tank);
      tell(work, { is: 'deliveryEnded', tank: command.tank, by: who });
      addMark(work, 'person', `Delivery into the ${command.tank} tank ended`);
      return true;
    case 'identifyTank': {
      const { tank, product, reason } = command;
      setTank(work, tank, {
        holds: product === tank ? tank : 'not known',
        why: product === tank ? reason : `Identified as ${product}`,
      });
      tell(work, { is: 'tankIdentified', tank, product, reason, by: who });
      addMark(work, 'person', `Contents of the ${tank} tank identified as ${product}`);
      return true;
    }
    default:
      return false;
  }
};

/** What time alone brings about; true when something changed that charts must hear of. */
export const careBySecond = (work: Work): boolean => {
  const { line } = work;
  const { maintenance, tankMemos } = line;
  for (const id in maintenance.inhibits) {
    const cause = id as InterlockCauseId;
    const until = maintenance.inhibits[cause]?.untilTick;
    if (until != null && line.tick >= until) endInhibit(work, cause, 'its time was up', THE_LINE);
  }
  if (maintenance.drift === null) {
    const { cleanAirS, noVapourS } = line.watch;
    const why =
      cleanAirS >= DRIFT_ENOUGH_S
        ? 'It shows vapour in clean air.'
        : noVapourS >= DRIFT_ENOUGH_S
          ? 'It shows nothing over mix that gives off vapour.'
          : null;
    if (why !== null) {
      line.maintenance = { ...line.maintenance, drift: why };
      tell(work, { is: 'calibrationLost', why });
    }
  }
  for (const tank of PRODUCTS) {
    const memo = line.tankMemos[tank];
    if (memo.foamed || memo.delivery !== null) continue;
    if (line.readings[`${tank}DipMm`] - line.watch[`${tank}DipFromMm`] < FOAM_MM) continue;
    setTank(work, tank, { foamed: true });
    tell(work, { is: 'tankDoubted', tank, why: 'Its level rose with nothing delivered: it foams' });
  }
  return line.maintenance !== maintenance || line.tankMemos !== tankMemos;
};
