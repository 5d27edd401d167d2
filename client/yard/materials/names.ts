/** What a store is called on the page. */
import type { StoreId } from '../../../machines/yard/stock/state.types.ts';

export const storeTitle = (id: StoreId, material: string): string => {
  const [kind, n] = id.split(':');
  if (kind === 'tank') return `${material === 'emulsion' ? 'Emulsion' : 'Cutback'} tank`;
  if (kind === 'bin') return `Bin ${n}: ${material}`;
  if (kind === 'pile') return `Heap of ${material}`;
  return 'Anti-strip additive';
};
