/** What a console is shown of the stock; plain JSON. */
import type { StockOthers } from './others.types.ts';
import type { DayWeather, Movement, StockState, YardShape } from './state.types.ts';
import { type LotBalance, type PlaceView, viewLotBalances, viewPlaces } from './views/bays.ts';
import { type LoadView, type MixReady, viewLoads, viewReady } from './views/loads.ts';
import { type MaterialsView, viewMaterials } from './views/materials.ts';

export type StockView = {
  readonly at: string;
  /** Null until a shift has been opened: the yard is not known before. */
  readonly yard: string | null;
  readonly day: DayWeather | null;
  readonly materials: MaterialsView;
  readonly places: readonly PlaceView[];
  readonly lots: readonly LotBalance[];
  readonly ready: readonly MixReady[];
  readonly loads: readonly LoadView[];
  readonly movements: readonly Movement[];
  readonly wasteKg: number;
  /** Mixes the plant makes, for choosing; two points of the binder's viscosity for the forecast. */
  readonly mixes: readonly Pick<YardShape['mixes'][number], 'id' | 'name' | 'family' | 'viscosity'>[];
  readonly bins: readonly { readonly bin: number; readonly name: string }[];
};

export const viewStock = (s: StockState, at: string, others: StockOthers = {}): StockView => ({
  at,
  yard: s.yard?.name ?? null,
  day: s.day,
  materials: viewMaterials(s, at, others),
  places: viewPlaces(s, others, at),
  lots: viewLotBalances(s, others),
  ready: viewReady(s, others),
  loads: viewLoads(s, others),
  movements: s.movements.slice(-40).reverse(),
  wasteKg: s.wasteGrams / 1000,
  mixes: (s.yard?.mixes ?? []).map(({ id, name, family, viscosity }) => ({ id, name, family, viscosity })),
  bins: (s.yard?.bins ?? []).map(({ bin, name }) => ({ bin, name })),
});
