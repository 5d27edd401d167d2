/** What speaks against a version, shown before it is approved: nobody should find out from the lab's first lot. */
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import { usualConditions } from '../../../machines/yard/mixes/conditions.ts';
import { factorValues } from '../../../machines/yard/mixes/factors.ts';
import type { Finding } from '../../../machines/yard/mixes/findings.ts';
import { mixSheet } from '../../../machines/yard/mixes/sheet.ts';
import type { MixesView } from '../../../machines/yard/mixes/view.ts';
import { Findings } from './summary.tsx';
import { minutesOf } from './words.ts';

/** Of a mix on a usual morning; none when the plant is not known or the mix cannot be worked out on it. */
const findingsOf = (mix: Mix, view: MixesView): readonly Finding[] => {
  if (view.plant === null) return [];
  const airC = view.morning?.startC ?? 15;
  const readyAtMin = minutesOf(view.morning?.startsAt ?? '06:00');
  const made = mixSheet({
    mix,
    plant: view.plant,
    bins: view.bins,
    specification: view.specifications.find((one) => one.id === mix.specification) ?? null,
    conditions: usualConditions(mix, view.plant, airC, readyAtMin),
    factors: factorValues(view.factors),
  });
  return made.ok ? made.sheet.findings.filter(({ weight }) => weight !== 'note') : [];
};

export function ApproveFindings({ mix, view }: { readonly mix: Mix; readonly view: MixesView | null }) {
  const findings = view === null ? [] : findingsOf(mix, view);
  return findings.length === 0 ? null : <Findings findings={findings} />;
}
