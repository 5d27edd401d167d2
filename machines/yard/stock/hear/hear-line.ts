/** What the line tells: lots, batches, mass moved, deliveries into tanks, bins refilled. */
import type { Account, Fact } from '../../../line/facts.ts';
import { MAINS, scaleSource, sourceNode, uncoveredSource } from '../nodes.ts';
import { behind, bySource, type Parts, sumOf, takeMixed } from '../parts.ts';
import type { StockLot, StoreId } from '../state.types.ts';
import { hearBegun, hearConfirmed, hearDelivered, hearRefill } from './hear-deliveries.ts';
import { addLayer, edge, noteUse, partsTo, setStore, takeOut, type Work } from './work.ts';

type Of<N extends Fact['is']> = Extract<Fact, { is: N }>;

/** The store a material of the line's books is taken from, or null when it is none the yard keeps. */
const storeOf = (work: Work, material: string): StoreId | null => {
  if (material === 'emulsion' || material === 'cutback') return `tank:${material}`;
  if (material === 'anti-strip') return 'additive:anti-strip';
  const bin = work.s.yard?.bins.find((one) => one.name === material)?.bin;
  return bin === undefined ? null : `bin:${bin}`;
};

/** Grams out of the yard's stores into the line; what the books do not have is named as such, never made up. */
const fromMaterials = (work: Work, material: string, grams: number): Parts => {
  if (material === 'water') return [{ source: MAINS, grams }];
  const id = storeOf(work, material);
  if (id === null) return [{ source: scaleSource(material), grams }];
  const taken = takeOut(work, id, grams);
  noteUse(work, id, grams);
  const short = grams - sumOf(taken);
  if (short === 0) return taken;
  setStore(work, id, { uncoveredGrams: (work.s.stores[id]?.uncoveredGrams ?? 0) + short });
  return [...taken, { source: uncoveredSource(material), grams: short }];
};

const fromAccount = (work: Work, from: Account, material: string, grams: number): Parts => {
  if (from === 'materials') return fromMaterials(work, material, grams);
  const { taken, left } = takeMixed(work.s.line[from] ?? [], grams);
  work.s.line = { ...work.s.line, [from]: left };
  const short = grams - sumOf(taken);
  return short === 0 ? taken : [...taken, { source: scaleSource(material), grams: short }];
};

/** Parts leave the mixer as part of a batch: into its node, then on. */
const throughBatch = (work: Work, parts: Parts, lot: string | null): { kind: 'batch'; id: string } => {
  const batch = { kind: 'batch' as const, id: work.s.batch ?? `${lot ?? work.heard.shift}/0` };
  for (const { source, grams } of bySource(parts)) edge(work, sourceNode(source), batch, grams);
  return batch;
};

const layInBay = (work: Work, lot: string, grams: number): void => {
  const known = work.s.lots[lot];
  const bay = `bay:${known?.bay ?? 1}`;
  const { at } = work.heard;
  const layers = work.s.places[bay] ?? [];
  const top = layers.at(-1);
  if (top?.lot === lot && top.origin === 'made')
    work.s.places = {
      ...work.s.places,
      [bay]: [...layers.slice(0, -1), { ...top, grams: top.grams + grams, laidTo: at }],
    };
  else
    addLayer(work, bay, {
      lot,
      grams,
      origin: 'made',
      from: '',
      laidFrom: at,
      laidTo: at,
      laidC: null,
      bags: 0,
      returned: null,
    });
  if (known !== undefined) countMade(work, lot, grams, 0);
};

const setLot = (work: Work, lot: string, change: Partial<StockLot>): void => {
  const known = work.s.lots[lot];
  if (known !== undefined) work.s.lots = { ...work.s.lots, [lot]: { ...known, ...change } };
};

/** Counts what was made of a lot: beside it while it is open. */
const countMade = (work: Work, lot: string, grams: number, batches: number): void => {
  const open = work.s.filling[lot];
  const before = open ?? work.s.lots[lot];
  if (before === undefined) return;
  const now = { madeGrams: before.madeGrams + grams, batches: before.batches + batches };
  if (open === undefined) setLot(work, lot, now);
  else work.s.filling = { ...work.s.filling, [lot]: now };
};

const hearMass = (work: Work, { from, to, grams, material }: Of<'massMoved'>): void => {
  const parts = fromAccount(work, from, material, grams);
  const waste = (id: string) => ({ kind: 'waste' as const, id });
  if (to.startsWith('lot:')) {
    const lot = to.slice(4);
    edge(work, throughBatch(work, parts, lot), { kind: 'lot', id: lot }, grams);
    layInBay(work, lot, grams);
  } else if (to === 'waste') {
    work.s.wasteGrams += grams;
    if (from === 'mixer' && work.s.batch !== null) {
      const batch = throughBatch(work, parts, null);
      edge(work, batch, waste(batch.id), grams);
    } else partsTo(work, parts, (node) => waste(node.id), material);
  } else if (to === 'waterLost') partsTo(work, parts, (node) => ({ kind: 'air', id: node.id }), material);
  else if (to === 'materials')
    partsTo(work, parts, { kind: 'adjustment', id: scaleSource(material) }, material);
  else {
    const there = bySource(behind(work.s.line[to] ?? [], parts));
    work.s.line = { ...work.s.line, [to]: there };
  }
};

/** Mean temperature of the layer on top as its batches come, °C. */
const hearDischarged = (work: Work, { lot, grams, mixC }: Of<'batchDischarged'>): void => {
  const known = work.s.lots[lot];
  if (known === undefined) return;
  countMade(work, lot, 0, 1);
  const bay = `bay:${known.bay}`;
  const layers = work.s.places[bay] ?? [];
  const top = layers.at(-1);
  if (top?.lot !== lot || top.grams < grams) return;
  const before = top.grams - grams;
  const laidC = top.laidC === null || before === 0 ? mixC : (top.laidC * before + mixC * grams) / top.grams;
  work.s.places = {
    ...work.s.places,
    [bay]: [...layers.slice(0, -1), { ...top, laidC: Math.round(laidC * 10) / 10 }],
  };
};

/** Facts of the line; those that are none of the stock's business are passed over. */
export const hearLine = (work: Work, fact: Fact): void => {
  const { at } = work.heard;
  switch (fact.is) {
    case 'lotOpened': {
      const mix = work.s.yard?.mixes.find((one) => one.id === fact.mix);
      work.s.lots = {
        ...work.s.lots,
        [fact.lot]: {
          lot: fact.lot,
          mixId: fact.mix,
          mixVersion: fact.mixVersion,
          mixName: mix?.name ?? fact.mix,
          family: fact.family,
          bay: fact.bay,
          openedAt: at,
          closedAt: null,
          madeGrams: 0,
          batches: 0,
          loadedGrams: 0,
          returnedGrams: 0,
          wastedGrams: 0,
          adjustedGrams: 0,
          reworked: 0,
        },
      };
      work.s.filling = { ...work.s.filling, [fact.lot]: { madeGrams: 0, batches: 0 } };
      return;
    }
    case 'lotClosed': {
      const { [fact.lot]: made, ...open } = work.s.filling;
      work.s.filling = open;
      setLot(work, fact.lot, { ...made, closedAt: at });
      return;
    }
    case 'batchStarted':
      work.s.batch = `${fact.lot}/${fact.batch}`;
      return;
    case 'massMoved':
      hearMass(work, fact);
      return;
    case 'batchDischarged':
      hearDischarged(work, fact);
      return;
    case 'deliveryBegun':
      hearBegun(work, fact);
      return;
    case 'deliveryConfirmed':
      hearConfirmed(work, fact);
      return;
    case 'deliveryEnded':
      hearDelivered(work, fact.tank);
      return;
    case 'shiftEnded':
      for (const tank of ['emulsion', 'cutback'] as const) hearDelivered(work, tank);
      return;
    case 'binRefillAsked':
      hearRefill(work, fact.bin);
      return;
    default:
  }
};
