/** Figures of patches and orders as people read them. */
import { formatDay, formatTonnes } from '../../format/format.ts';

/** Below a tonne in kilograms, from there in tonnes. */
export const mass = (kg: number): string => {
  if (kg === 0) return '0 kg';
  if (kg >= 999.5) return formatTonnes(kg);
  if (kg >= 99.5) return `${Math.round(kg)} kg`;
  return `${kg.toFixed(kg >= 9.95 ? 1 : 2).replace(/\.?0+$/, '')} kg`;
};

/** Kilograms for a column whose head says kg. */
export const kg = (value: number, digits = 1): string => (value === 0 ? '–' : value.toFixed(digits));

/** 90 mm in two layers of 45: "45 + 45", from the bottom up. */
export const layers = (mm: readonly number[]): string => mm.join(' + ');

const metres = (m: number): string => String(Math.round(m * 1000) / 1000);

export const sizes = (hole: {
  readonly lengthM: number;
  readonly widthM: number;
  readonly depthMm: number;
}): string => `${metres(hole.lengthM)} × ${metres(hole.widthM)} m × ${hole.depthMm} mm`;

export const routeName = (route: string): string => (route === '' ? 'No route' : route);

/** '2026-04-14' → "14 Apr 2026" */
export const dayWords = formatDay;

/** A mix by the name people know it by; its id where the name is not known any more. */
export const mixName = (
  view: { readonly mixes: readonly { readonly id: string; readonly name: string }[] },
  id: string,
): string => view.mixes.find((mix) => mix.id === id)?.name ?? id;
