/** The limits a mix's specification sets on a property, as far as they hold whatever the stone. Pure. */

import { windowOf } from '../../../machines/lab/judge/limits.ts';
import type { LabView } from '../../../machines/lab/view.ts';
import { propertyOf } from '../../../machines/scenario/lab-tests.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';

/** The newest specification the newest version of the mix names; null where it names none. */
export function specOfMix(view: LabView, mix: string): Specification | null {
  const newest = view.mixes.filter(({ id }) => id === mix).sort((a, b) => b.version - a.version)[0];
  const id = newest?.specification ?? null;
  return view.specifications.filter((one) => one.id === id).sort((a, b) => b.version - a.version)[0] ?? null;
}

/** Properties lots of the mix are sampled for, while none has a result yet; the residual binder first. */
export function plannedOf(view: LabView, mix: string): readonly string[] {
  const spec = specOfMix(view, mix);
  const names = [...new Set((spec?.limits ?? []).map(({ property }) => property))].filter((property) => {
    const test = propertyOf(property)?.test;
    return test !== undefined && (spec?.frequencies[test] ?? 0) > 0;
  });
  return names.sort((a, b) => Number(b.startsWith('residual')) - Number(a.startsWith('residual')));
}

export const limitsFor = (
  view: LabView,
  mix: string,
  property: string,
): { readonly from: number | null; readonly to: number | null } =>
  windowOf(
    (specOfMix(view, mix)?.limits ?? []).filter((one) => one.property === property && one.when === undefined),
  );
