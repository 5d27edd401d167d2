/** Lets charts hear what is true: each event an active state listens to is offered while its condition holds. */

import type { AnyMachineSnapshot } from 'xstate';
import { SIGNAL_NAMES, type Signal } from '../charts/signals.ts';
import { listensTo } from './chart-kit.ts';
import type { ChartId, Line, WeigherId } from './line.types.ts';
import { WEIGHER_SCALES } from './lookup.ts';
import { ALARM_CHARTS, HEARERS, machineOf } from './machines.ts';
import { drive } from './reactions.ts';
import { signalsOf } from './signals-of.ts';
import { type ScaleConditions, scaleConditions } from './weighing.ts';
import type { Work } from './work.ts';

type ScaleCondition = keyof ScaleConditions;

/** An event some active state listens to, and what makes it true: a signal at a value, or a scale's condition. */
type Offer =
  | { readonly eventType: string; readonly signal: Signal; readonly is: boolean }
  | { readonly eventType: string; readonly condition: ScaleCondition };

const SCALE_EVENTS: { readonly [eventType: string]: ScaleCondition } = {
  'scale.nearTarget': 'nearTarget',
  'scale.atCutOff': 'atCutOff',
  'scale.noGain': 'noGain',
  'scale.within': 'within',
  'scale.light': 'light',
  'scale.heavy': 'heavy',
};

const offerOf = (eventType: string): Offer[] => {
  const condition = SCALE_EVENTS[eventType];
  if (condition !== undefined) return [{ eventType, condition }];
  const dot = eventType.indexOf('.');
  const edge = eventType.slice(0, dot);
  const signal = eventType.slice(dot + 1) as Signal;
  if ((edge !== 'on' && edge !== 'off') || !SIGNAL_NAMES.includes(signal)) return [];
  return [{ eventType, signal, is: edge === 'on' }];
};

/** Offers of a snapshot are always the same: found once. */
const offersOf = new WeakMap<AnyMachineSnapshot, readonly Offer[]>();

const offersFor = (line: Line, chart: ChartId, snapshot: AnyMachineSnapshot): readonly Offer[] => {
  let offers = offersOf.get(snapshot);
  if (offers === undefined) {
    offers = listensTo(machineOf(line, chart), snapshot).flatMap(offerOf);
    offersOf.set(snapshot, offers);
  }
  return offers;
};

const scaleSays = (line: Line, id: WeigherId, condition: ScaleCondition): boolean => {
  const scale = WEIGHER_SCALES[id];
  const toppingUp = line.charts[id]?.value === 'toppingUp';
  const reading = line.readings[scale.tag];
  return scaleConditions(line.weighers[id], reading, scale.gives, scale.intervalKg, toppingUp, line.tick)[
    condition
  ];
};

/** Offers one chart what is true until it moves; true when it moved. */
const offer = (work: Work, chart: ChartId): boolean => {
  const { line } = work;
  const snapshot = line.charts[chart];
  if (snapshot === undefined) return false;
  for (const one of offersFor(line, chart, snapshot)) {
    const holds =
      'signal' in one
        ? line.signals[one.signal] === one.is
        : scaleSays(line, chart as WeigherId, one.condition);
    if (holds && drive(work, chart, one.eventType)) return true;
  }
  return false;
};

/** A chart that still moves after this many rounds contradicts itself: better to stop than to spin. */
const ROUNDS = 100;

/** Charts hear signals until none moves; signals that follow from charts are formed anew after each round. */
export const settleCharts = (work: Work): void => {
  for (let round = 0; round < ROUNDS; round += 1) {
    work.line.signals = signalsOf(work.line);
    let moved = false;
    for (const chart of HEARERS)
      if (offer(work, chart)) {
        moved = true;
        work.line.signals = signalsOf(work.line);
      }
    if (!moved) return;
  }
  throw new Error(`charts do not settle at tick ${work.line.tick}`);
};

/** Alarms hear whether their condition stands. */
export const settleAlarms = (work: Work): void => {
  for (const { alarm, chart } of ALARM_CHARTS) {
    const snapshot = work.line.alarmCharts[chart];
    if (snapshot === undefined) continue;
    const value = snapshot.value as { condition: string; suppression: string };
    const stands = alarm.stands(work.line);
    if (stands !== (value.condition === 'on'))
      drive(work, chart, stands ? 'line.conditionOn' : 'line.conditionOff');
    const meaningless = alarm.meaningless?.(work.line) ?? false;
    if (meaningless !== (value.suppression === 'on'))
      drive(work, chart, meaningless ? 'line.suppress' : 'line.unsuppress');
  }
};
