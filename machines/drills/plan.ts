/** What goes wrong this time: the seed chooses instrument, amount and timing of every incident of a drill. */
import { nextState, unitOf } from '../line/random.ts';
import type { Drill } from './drill.schema.ts';
import type { IncidentState } from './run.types.ts';

/** The drill's own stream of chance, apart from those of line, plant and stand-in. */
const STREAM = 0xd1115;

const between = (unit: number, [from, to]: readonly [number, number]): number =>
  Math.round((from + unit * (to - from)) * 10) / 10;

/** Amounts keep three digits, so that a small drift is not rounded away. */
const amount = (unit: number, [from, to]: readonly [number, number]): number =>
  Number((from + unit * (to - from)).toPrecision(3));

export const planOf = (drill: Drill, seed: number): IncidentState[] => {
  let state = (seed ^ STREAM) >>> 0;
  const draw = (): number => {
    state = nextState(state);
    return unitOf(state);
  };
  return drill.incidents.map((one) => {
    const happening = one.oneOf[Math.floor(draw() * one.oneOf.length)] ?? one.oneOf[0];
    if (happening === undefined) throw new Error(`incident ${one.id} has nothing to happen`);
    const afterS = between(draw(), one.afterS);
    const by = happening.what === 'instrument' ? amount(draw(), happening.by) : 0;
    const lasts = draw();
    return {
      id: one.id,
      happening,
      afterS,
      by,
      lastsS: one.lastsS === undefined ? null : between(lasts, one.lastsS),
      mendS: between(draw(), one.mendS),
      dueTick: null,
      fromTick: null,
      mendTick: null,
      called: false,
      toTick: null,
    };
  });
};
