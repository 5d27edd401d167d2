/** Materials as a console shows them: levels, days left, when to order, what expires, what is not explained. */
import { propertyWords } from '../../../lab/judge/limits.ts';
import { cylinderM3, dipOfM } from '../../../mix/cylinder.ts';
import { type StockOthers, sheetsOn } from '../others.types.ts';
import { bySource, sumOf } from '../parts.ts';
import { ruleFor } from '../rules.ts';
import type {
  Delivery,
  Measured,
  Period,
  Rule,
  StockState,
  Store,
  StoreId,
  TankShape,
} from '../state.types.ts';
import { daysBetween, daysOn } from '../time.ts';

export type StoreView = {
  readonly id: StoreId;
  readonly kind: 'tank' | 'bin' | 'pile' | 'additive';
  readonly material: string;
  /** Grade of a binder, size of a stone. */
  readonly what: string;
  readonly kg: number;
  /** Null where nothing but the yard bounds it. */
  readonly capacityKg: number | null;
  /** Of a tank: level by the books at 15 °C, mm, and its shape. */
  readonly levelMm: number | null;
  readonly shape: TankShape | null;
  readonly holds: readonly { readonly source: string; readonly words: string; readonly kg: number }[];
  /** Mean of the days of work kept; null before the first. */
  readonly useKgDay: number | null;
  readonly useDays: number;
  readonly daysLeft: number | null;
  readonly rule: Rule;
  /** Level at which to order: use over lead time and reserve. */
  readonly orderAtKg: number | null;
  readonly order: 'enough' | 'order now' | 'too late' | 'not used yet';
  readonly uncoveredKg: number;
  readonly period: Period;
  readonly measured: Measured | null;
  readonly loss: 'none' | 'within' | 'beyond';
};

export type ExpiryView = {
  readonly delivery: string;
  readonly ticket: string;
  readonly store: StoreId;
  readonly material: string;
  readonly kg: number;
  readonly keepsUntil: string;
  readonly daysLeft: number;
  readonly word: 'good' | 'use first' | 'expired';
};

export type MaterialsView = {
  readonly stores: readonly StoreView[];
  readonly expiry: readonly ExpiryView[];
  readonly deliveries: readonly (Delivery & {
    readonly leftKg: number;
    readonly tests: readonly { readonly worksheet: string; readonly words: string }[];
  })[];
  readonly measurements: readonly (Measured & { readonly store: StoreId })[];
};

/** Days before the date from which it is to be used first. */
const SOON_DAYS = 14;

const kindOf = (id: StoreId): StoreView['kind'] => id.slice(0, id.indexOf(':')) as StoreView['kind'];

const wordsOf = (s: StockState, source: string): string => {
  const delivery = s.deliveries[source];
  if (delivery !== undefined) return `${source}, ticket ${delivery.ticket}`;
  if (source.startsWith('OPENING:')) return 'opening stock';
  if (source.startsWith('A-UNCOVERED:')) return 'no delivery covers it';
  return source.startsWith('A-') ? `adjustment ${source}` : source;
};

const capacityOf = (s: StockState, store: Store): number | null => {
  const [kind, n] = store.id.split(':');
  if (kind === 'bin') return s.yard?.bins.find((bin) => String(bin.bin) === n)?.capacityKg ?? null;
  const tank = kind === 'tank' ? s.yard?.tanks[n as 'emulsion' | 'cutback'] : undefined;
  if (tank === undefined) return null;
  return Math.round(cylinderM3(tank.diameterM, tank.lengthM, tank.diameterM) * tank.densityAt15KgM3);
};

const whatOf = (s: StockState, store: Store): string => {
  const [kind, n] = store.id.split(':');
  if (kind === 'tank') return s.yard?.tanks[n as 'emulsion' | 'cutback'].grade ?? '';
  if (kind === 'additive') return 'liquid additive';
  return s.yard?.bins.find((bin) => String(bin.bin) === n)?.size ?? '';
};

/** A bin is filled from its heap by the loader: only what comes by truck is ordered. */
const orderWord = (
  store: Store,
  kg: number,
  orderAtKg: number | null,
  leadKg: number,
): StoreView['order'] => {
  if (orderAtKg === null) return 'not used yet';
  if (kindOf(store.id) === 'bin') return 'enough';
  if (kg > orderAtKg) return 'enough';
  return kg >= leadKg ? 'order now' : 'too late';
};

const lossOf = (measured: Measured | null): StoreView['loss'] => {
  if (measured === null) return 'none';
  return Math.abs(measured.differenceGrams) <= measured.limitGrams ? 'within' : 'beyond';
};

const storeView = (s: StockState, store: Store): StoreView => {
  const grams = sumOf(store.parts);
  const rule = s.rules[store.id] ?? ruleFor(store.id);
  const useDays = store.use.length;
  const useKgDay = useDays === 0 ? null : sumOf(store.use) / 1000 / useDays;
  const orderAtKg = useKgDay === null ? null : useKgDay * (rule.leadDays + rule.reserveDays);
  const kind = kindOf(store.id);
  const shape = kind === 'tank' ? (s.yard?.tanks[store.id.slice(5) as 'emulsion' | 'cutback'] ?? null) : null;
  const m3 = shape === null ? 0 : grams / 1000 / shape.densityAt15KgM3;
  return {
    id: store.id,
    kind,
    material: store.material,
    what: whatOf(s, store),
    kg: grams / 1000,
    capacityKg: capacityOf(s, store),
    levelMm: shape === null ? null : Math.round(dipOfM(shape.diameterM, shape.lengthM, m3) * 1000),
    shape,
    holds: bySource(store.parts).map((part) => ({
      source: part.source,
      words: wordsOf(s, part.source),
      kg: part.grams / 1000,
    })),
    useKgDay,
    useDays,
    daysLeft: useKgDay === null || useKgDay === 0 ? null : grams / 1000 / useKgDay,
    rule,
    orderAtKg,
    order: orderWord(store, grams / 1000, orderAtKg, (useKgDay ?? 0) * rule.leadDays),
    uncoveredKg: store.uncoveredGrams / 1000,
    period: store.period,
    measured: store.measured,
    loss: lossOf(store.measured),
  };
};

const leftOf = (s: StockState, { id, store }: Delivery): number =>
  sumOf((s.stores[store]?.parts ?? []).filter((part) => part.source === id)) / 1000;

const expiryOf = (s: StockState, at: string): ExpiryView[] =>
  Object.values(s.deliveries).flatMap((one) => {
    const kg = leftOf(s, one);
    if (one.keepsUntil === null || kg === 0) return [];
    const daysLeft = Math.floor(daysBetween(at, `${daysOn(one.keepsUntil, 1)}T00:00:00`));
    const word = daysLeft <= 0 ? 'expired' : daysLeft <= SOON_DAYS ? 'use first' : 'good';
    const { id, ticket, store, keepsUntil } = one;
    const material = s.stores[store]?.material ?? one.material;
    return [{ delivery: id, ticket, store, material, kg, keepsUntil, daysLeft, word }];
  });

const ORDER = ['tank', 'bin', 'pile', 'additive'];

const testsOf = (others: StockOthers, delivery: string) =>
  sheetsOn(others, delivery).map(({ id, test, results }) => ({
    worksheet: id,
    words: `${test}: ${
      results.length === 0
        ? 'no figures'
        : results
            .slice(0, 3)
            .map((one) =>
              `${propertyWords(one.property)} ${one.reported ?? `${one.value} ${one.unit}`}`.trim(),
            )
            .join(', ')
    }`,
  }));

export const viewMaterials = (s: StockState, at: string, others: StockOthers): MaterialsView => ({
  stores: Object.values(s.stores)
    .map((store) => storeView(s, store))
    .sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind)),
  expiry: expiryOf(s, at).sort((a, b) => a.daysLeft - b.daysLeft),
  deliveries: Object.values(s.deliveries)
    .slice(-60)
    .reverse()
    .map((one) => ({ ...one, leftKg: leftOf(s, one), tests: testsOf(others, one.id) })),
  measurements: s.measurements.slice(-40).reverse(),
});
