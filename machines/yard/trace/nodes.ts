/** What tracing keeps beside the edges: who made a batch and when, when a scale was set to zero, where mix was laid. */
import type { Who } from '../../line/facts.ts';
import type { Heard, HeardAt } from '../../record/book.types.ts';
import type { StockFact } from '../stock/facts.ts';
import type { NodeRef } from './edges.ts';

/** A batch as it is found by operator and by time. */
export type BatchNote = {
  readonly is: 'batch';
  readonly seq: number;
  readonly shift: number;
  /** Its number within its shift. */
  readonly batch: number;
  readonly lot: string;
  readonly mix: string;
  readonly mixVersion: number;
  readonly by: string;
  readonly at: string;
};
/** Nothing but the time it left the pug mill, and where it went. */
export type BatchEnd = {
  readonly is: 'batchEnd';
  readonly seq: number;
  readonly shift: number;
  readonly batch: number;
  readonly bay: number | null;
  readonly grams: number;
  readonly at: string;
};
export type ScaleMark = {
  readonly is: 'scale';
  readonly seq: number;
  readonly shift: number;
  readonly scale: string;
  readonly what: string;
  readonly by: string;
  readonly at: string;
};
/** Mix of a load laid in a hole. */
export type LaidNote = {
  readonly is: 'laid';
  readonly seq: number;
  readonly load: string;
  readonly n: number;
  readonly patch: string;
  readonly place: string;
  readonly grams: number;
  readonly layers: readonly number[];
  readonly by: string;
  readonly at: string;
};
/** Taken back: it was entered by mistake. */
export type LaidBack = {
  readonly is: 'laidBack';
  readonly seq: number;
  readonly load: string;
  readonly n: number;
};
export type Note = BatchNote | BatchEnd | ScaleMark | LaidNote | LaidBack;

/** A batch's node: '<lot>/<n>'. */
export const batchNode = (lot: string, batch: number): NodeRef => ({ kind: 'batch', id: `${lot}/${batch}` });

const stockNote = ({ seq, at }: HeardAt, by: Who, fact: StockFact): Note | null => {
  if (fact.is === 'patchLaid') {
    const { load, n, patch, where, grams, layers } = fact;
    return { is: 'laid', seq, load, n, patch, place: where, grams, layers, by: by.person, at };
  }
  if (fact.is === 'patchLaidReversed') return { is: 'laidBack', seq, load: fact.load, n: fact.n };
  return null;
};

/** What of the facts tracing needs to remember; at most one note a fact. `leader` leads the line, '' when nobody does. */
export const noteOf = (heard: Heard, leader: string): Note | null => {
  if (heard.from === 'stock') return stockNote(heard, heard.by, heard.fact as StockFact);
  if (heard.from !== 'line') return null;
  const { fact, seq, shift, at } = heard;
  switch (fact.is) {
    case 'batchStarted': {
      const { batch, lot, mix, mixVersion, by } = fact;
      return {
        is: 'batch',
        seq,
        shift,
        batch,
        lot,
        mix,
        mixVersion,
        by: by.role === 'line' && leader !== '' ? leader : by.person,
        at,
      };
    }
    case 'batchDischarged':
      return { is: 'batchEnd', seq, shift, batch: fact.batch, bay: fact.bay, grams: fact.grams, at };
    case 'batchDumped':
      return { is: 'batchEnd', seq, shift, batch: fact.batch, bay: null, grams: fact.grams, at };
    case 'scaleZeroed': {
      const what = `set to zero from ${fact.fromKg} kg`;
      return { is: 'scale', seq, shift, scale: fact.scale, what, by: fact.by.person, at };
    }
    default:
      return null;
  }
};
