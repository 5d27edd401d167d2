/** Adds up the facts of a shift into the figures `run` prints. */
import type { Account, Fact } from '../../machines/line/facts.ts';
import type { LineView } from '../../machines/line/view.types.ts';

export type LotReport = {
  readonly id: string;
  readonly family: 'emulsion' | 'cutback';
  readonly massKg: number;
  readonly batches: number;
  readonly state: 'open' | 'closed' | 'closed short';
};

export type ShiftReport = {
  readonly batches: number;
  readonly batchesDumped: number;
  readonly lots: readonly LotReport[];
  readonly massInKg: number;
  readonly massOutKg: number;
  readonly massHeldKg: number;
  readonly massBalanceErrorKg: number;
  readonly trips: number;
  readonly refusals: readonly {
    readonly at: string;
    readonly command: string;
    readonly because: readonly string[];
  }[];
  readonly samples: number;
  readonly samplesMissed: number;
  readonly alarms: number;
};

type Lot = {
  id: string;
  family: 'emulsion' | 'cutback';
  grams: number;
  batches: number;
  state: LotReport['state'];
};

const isOut = (account: Account): boolean =>
  account.startsWith('lot:') || account === 'waste' || account === 'waterLost';

const clock = (atMs: number): string => {
  const s = Math.floor(atMs / 1000);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};

export type Tally = {
  readonly add: (fact: Fact, atMs: number) => void;
  readonly report: (view: LineView) => ShiftReport;
};

/**
 * Masses are whole grams, summed exactly. In is what left the materials; out is what reached lots,
 * waste and lost water; held is what the plant still had on the way. The error is in − out − held,
 * where out to lots and waste is taken from the batches' own facts and held from the moves: two
 * ways of counting that must meet.
 */
export const createTally = (): Tally => {
  const lots = new Map<string, Lot>();
  const balance = new Map<Account, number>();
  const refusals: ShiftReport['refusals'][number][] = [];
  let batches = 0;
  let dumped = 0;
  let trips = 0;
  let samples = 0;
  let alarms = 0;

  const move = (account: Account, grams: number) => balance.set(account, (balance.get(account) ?? 0) + grams);

  const add = (fact: Fact, atMs: number): void => {
    switch (fact.is) {
      case 'massMoved':
        move(fact.from, -fact.grams);
        move(fact.to, fact.grams);
        break;
      case 'lotOpened':
        lots.set(fact.lot, { id: fact.lot, family: fact.family, grams: 0, batches: 0, state: 'open' });
        break;
      case 'lotClosed': {
        const lot = lots.get(fact.lot);
        if (lot !== undefined) lot.state = fact.short ? 'closed short' : 'closed';
        break;
      }
      case 'batchDischarged': {
        const lot = lots.get(fact.lot);
        if (lot === undefined)
          throw new Error(`batch ${fact.batch} went to lot ${fact.lot}, which was never opened`);
        lot.grams += fact.grams;
        lot.batches += 1;
        batches += 1;
        break;
      }
      case 'batchDumped':
        dumped += 1;
        break;
      case 'tripLatched':
        trips += 1;
        break;
      case 'sampleTaken':
        samples += 1;
        break;
      case 'alarmChanged':
        if (fact.state === 'unacknowledged') alarms += 1;
        break;
      case 'commandRefused':
        refusals.push({ at: clock(atMs), command: fact.command, because: fact.because });
        break;
      default:
        break;
    }
  };

  const report = (view: LineView): ShiftReport => {
    const inG = -(balance.get('materials') ?? 0);
    let outG = 0;
    let heldG = 0;
    for (const [account, grams] of balance) {
      if (account === 'materials') continue;
      if (account.startsWith('lot:')) continue;
      if (isOut(account)) outG += grams;
      else heldG += grams;
    }
    for (const lot of lots.values()) outG += lot.grams;
    return {
      batches,
      batchesDumped: dumped,
      lots: [...lots.values()].map(({ grams, ...lot }) => ({ ...lot, massKg: grams / 1000 })),
      massInKg: inG / 1000,
      massOutKg: outG / 1000,
      massHeldKg: heldG / 1000,
      massBalanceErrorKg: (inG - outG - heldG) / 1000,
      trips,
      refusals,
      samples,
      samplesMissed: view.lots.flatMap((lot) => lot.samples).filter((s) => s.state === 'missed').length,
      alarms,
    };
  };
  return { add, report };
};
