/** People by their names: the record keeps ids, and a person reads names. */
import { useCallback } from 'react';
import { useLive } from './store.ts';

/** The name of a person by id; the id itself where nobody of this plant is called so any more. */
export function usePersonName(): (id: string) => string {
  const people = useLive((live) => live.people);
  return useCallback((id: string) => people.find((one) => one.id === id)?.name ?? id, [people]);
}
