/** How a layer will work on a morning of another temperature than the last one's: the same teaching model, asked anew. */
import type { StockView } from '../../../machines/yard/stock/view.ts';
import type { LayerView } from '../../../machines/yard/stock/views/bays.ts';
import {
  cutbackWorkability,
  emulsionWorkability,
  type Workability,
} from '../../../machines/yard/weathering/workability.ts';

/** At `atC` when it is a number, else as the book forecasts it for a morning like the last one. */
export const morningOf = (layer: LayerView, mixes: StockView['mixes'], atC: number): Workability | null => {
  if (!Number.isFinite(atC)) return layer.tomorrow;
  if (layer.family === 'emulsion') return emulsionWorkability(layer.ageDays / layer.shelfDays, atC);
  const mix = mixes.find((one) => one.id === layer.mixId);
  return mix === undefined
    ? layer.tomorrow
    : cutbackWorkability(mix.viscosity, layer.weathered?.solventLostPct ?? 0, atC);
};
