/** All worksheets of the lab by their id. */
import { aggregate } from './aggregate/aggregate.ts';
import { binderDelivery } from './binder-delivery.ts';
import { bond } from './bond.ts';
import { cutbackResidue } from './cutback-residue.ts';
import { emulsionResidue } from './emulsion-residue.ts';
import { extraction } from './extraction.ts';
import { ignition } from './ignition.ts';
import { moisture } from './moisture.ts';
import { particleCount } from './particle-count.ts';
import type { Sheet, SheetId } from './sheet.types.ts';
import { sieve } from './sieve.ts';
import { staticImmersion } from './static-immersion.ts';
import { waterResistance } from './water-resistance.ts';
import { wetCoating } from './wet-coating.ts';
import { workability } from './workability.ts';

export { type Change, diff } from './diff.ts';
export { fieldsOf } from './fields.ts';
export { type Property, passingOf, propertyNamed } from './properties.ts';
export type * from './sheet.types.ts';

export const SHEETS: Readonly<Record<SheetId, Sheet>> = {
  moisture,
  sieve,
  extraction,
  ignition,
  'emulsion-residue': emulsionResidue,
  'cutback-residue': cutbackResidue,
  'wet-coating': wetCoating,
  'static-immersion': staticImmersion,
  'particle-count': particleCount,
  'water-resistance': waterResistance,
  workability,
  bond,
  'binder-delivery': binderDelivery,
  aggregate,
};
