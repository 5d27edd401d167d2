/** The books of a shift closed to the gram: what came in against lots, waste, lost water and what is still held. */
import { z } from 'zod';
import type { Gathered } from './gathered.types.ts';

export const booksSchema = z.object({
  materialsIn: z.array(z.object({ material: z.string(), grams: z.int() })),
  inGrams: z.int().describe('Left the stock, less what went back'),
  lotsGrams: z.int().describe('Into lots, as the batches told it'),
  wasteGrams: z.int(),
  waterLostGrams: z.int().describe('Steam and spray'),
  held: z.array(z.object({ where: z.string(), grams: z.int() })),
  heldGrams: z.int(),
  errorGrams: z.int().describe('In less lots, waste, lost water and held: 0 when the books close'),
  lotsBookedGrams: z.int().describe('Into lots, as the books moved it; must equal lotsGrams'),
});
export type Books = z.infer<typeof booksSchema>;

const OUT = new Set(['waste', 'waterLost']);

/**
 * Two ways of counting meet here: lots are taken from the batches' own facts, everything else from
 * the moves between accounts.
 */
export const booksOf = (told: Pick<Gathered, 'moves' | 'batches'>): Books => {
  const balance = new Map<string, number>();
  const materials = new Map<string, number>();
  const add = (map: Map<string, number>, key: string, grams: number) =>
    map.set(key, (map.get(key) ?? 0) + grams);
  for (const { from, to, grams, material } of told.moves) {
    add(balance, from, -grams);
    add(balance, to, grams);
    if (from === 'materials') add(materials, material, grams);
    if (to === 'materials') add(materials, material, -grams);
  }
  const inGrams = -(balance.get('materials') ?? 0);
  const held = [...balance]
    .filter(
      ([account, grams]) =>
        account !== 'materials' && !OUT.has(account) && !account.startsWith('lot:') && grams !== 0,
    )
    .map(([where, grams]) => ({ where, grams }));
  const heldGrams = held.reduce((sum, one) => sum + one.grams, 0);
  const lotsGrams = told.batches.reduce((sum, batch) => sum + batch.grams, 0);
  const lotsBookedGrams = [...balance]
    .filter(([account]) => account.startsWith('lot:'))
    .reduce((sum, [, grams]) => sum + grams, 0);
  const wasteGrams = balance.get('waste') ?? 0;
  const waterLostGrams = balance.get('waterLost') ?? 0;
  return {
    materialsIn: [...materials].map(([material, grams]) => ({ material, grams })),
    inGrams,
    lotsGrams,
    wasteGrams,
    waterLostGrams,
    held,
    heldGrams,
    errorGrams: inGrams - lotsGrams - wasteGrams - waterLostGrams - heldGrams,
    lotsBookedGrams,
  };
};
