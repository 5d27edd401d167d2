/** The ticket that goes with a load, as data: what is on it by lot, what it weighs, what it is for, and the cautions. */
import type { Load, StockState } from './state.types.ts';

export type LoadTicket = {
  readonly load: string;
  readonly plant: string;
  readonly mixName: string;
  /** When it was weighed out, else made out: the plant's clock. */
  readonly at: string;
  readonly draft: boolean;
  /** What its square says. */
  readonly code: string;
  readonly facts: readonly (readonly [name: string, value: string])[];
  readonly weights: readonly (readonly [name: string, value: string])[];
  readonly lots: readonly {
    readonly lot: string;
    readonly kg: number;
    readonly from: string;
    readonly released: string;
  }[];
  readonly patches: readonly { readonly patch: string; readonly where: string; readonly kg: number }[];
  readonly cautions: readonly string[];
};

/** Usual cautions with such mix; the supplier's safety sheet and the site's own rules come first. */
const CAUTIONS = {
  both: [
    'Gloves, long sleeves, safety footwear; eye protection when tipping. Wash skin with soap, never with solvent.',
    'Lift bags with two or by machine; never stand in the way of a tipping body.',
    'Guard the crew against traffic before anyone steps on the road.',
  ],
  emulsion: ['Irritates skin and eyes. Keep from frost; do not let it get into drains.'],
  cutback: [
    'Gives off solvent vapour that burns: no flame, no smoking, no sparks near load, heap or hole.',
    'Fresh from the plant it may be hot: burns skin and gives more vapour. Keep the load covered and open to the air; nobody rides with it.',
    'Powder or foam extinguisher on the vehicle. Do not warm it with a flame.',
  ],
} as const;

const kg = (grams: number): string => `${(grams / 1000).toFixed(1)} kg`;
const clock = (at: string): string => at.replace('T', ' ').slice(0, 16);

/** Lots by mass and by where they were drawn, in the order they were drawn. */
const lotsOf = (s: StockState, load: Load): LoadTicket['lots'] => {
  const bays = new Map((s.yard?.bays ?? []).map((bay) => [`bay:${bay.id}`, bay.name]));
  const rows = new Map<string, { lot: string; grams: number; from: string }>();
  for (const { lot, grams, place } of load.drawn) {
    const key = `${lot} ${place}`;
    const from = place === 'bags' ? 'filled bags' : (bays.get(place) ?? place);
    rows.set(key, { lot, from, grams: (rows.get(key)?.grams ?? 0) + grams });
  }
  return [...rows.values()].map(({ lot, grams, from }) => ({
    lot,
    kg: grams / 1000,
    from,
    released: load.byConcession.includes(lot) ? 'by concession' : 'accepted by the lab',
  }));
};

/** The ticket of a load that stands in the books, or null. */
export const ticketOf = (s: StockState, id: string): LoadTicket | null => {
  const load = s.loads[id];
  if (load === undefined) return null;
  const { weighed } = load;
  const at = weighed?.at ?? load.madeOutAt;
  const lots = lotsOf(s, load);
  const byLot = lots.map((one) => `${one.lot} ${one.kg.toFixed(1)} kg`).join(', ');
  return {
    load: id,
    plant: s.yard?.name ?? '',
    mixName: load.mixName,
    at,
    draft: weighed === null,
    code: `Load ${id} | ${load.mixName} | ${weighed === null ? 'not weighed' : kg(weighed.netGrams)}${byLot === '' ? '' : ` | lots ${byLot}`}`,
    facts: [
      ['Mix', `${load.mixName} (${load.family})`],
      ['Vehicle', load.vehicle],
      ['Crew', load.crew === '' ? '–' : load.crew],
      ['Patch list', load.list === '' ? '–' : load.list],
      ['Route', load.route === '' ? '–' : load.route],
      ['Made out', `${clock(load.madeOutAt)} by ${load.by.person}`],
      ['Weighed out', weighed === null ? 'not yet' : `${clock(weighed.at)} by ${weighed.by.person}`],
    ],
    weights:
      weighed === null
        ? [['Wanted', kg(load.wantedGrams)]]
        : [
            ['Gross', kg(weighed.grossGrams)],
            ['Tare', kg(weighed.tareGrams)],
            ['Net', kg(weighed.netGrams)],
            ...(weighed.bags > 0 ? [['Bags', String(weighed.bags)] as const] : []),
          ],
    lots,
    patches: load.for.map((one) => ({ patch: one.patch, where: one.where, kg: one.wantedGrams / 1000 })),
    cautions: [...CAUTIONS[load.family], ...CAUTIONS.both],
  };
};
