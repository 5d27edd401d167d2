/** Labels for the samples of a lot, as data: one a sample, and one for the portion kept back of it. */
import type { LabSamplePrint, LabWork } from './lab-work.ts';

export type Label = {
  /** What its square says: the label's own text, unique in the record. */
  readonly code: string;
  readonly title: string;
  /** Set off from the title: 'kept back' for a retained portion. */
  readonly mark: string;
  /** A name and what is known; null is left as a line to write on. */
  readonly lines: readonly (readonly [name: string, value: string | null])[];
  readonly caution: string;
};

export type LabelSheet = {
  readonly lot: string;
  readonly plant: string;
  /** Plant's own date the newest entry about the lot was written, ISO. */
  readonly dated: string;
  readonly labels: readonly Label[];
};

const cautionFor = (family: string): string =>
  family === 'cutback'
    ? 'Gives off solvent that burns: keep closed, away from flame and spark.'
    : 'Irritates skin and eyes: gloves. Keep from frost.';

const kg = (value: number | null): string | null => (value === null ? null : `${value.toFixed(3)} kg`);

const labelsOfSample = (sample: LabSamplePrint, lot: string, mix: string, family: string): Label[] => {
  const code = sample.label ?? `${lot}/S${sample.sample}`;
  const shared = { code, caution: cautionFor(family) };
  const common: Label['lines'] = [
    ['Lot', lot],
    ['Mix', mix],
    ['Test', sample.test === '' ? null : `${sample.test}, part ${sample.part}`],
    ['Taken', sample.taken === null ? null : sample.taken.slice(0, 16)],
    ['By', sample.takenBy],
    [
      'Batch',
      sample.substitute !== null
        ? `none: ${sample.substitute.split(':')[0]}`
        : sample.batch === null
          ? null
          : String(sample.batch),
    ],
  ];
  const whole: Label = {
    ...shared,
    title: `Sample ${sample.sample}`,
    mark: '',
    lines: [...common, ['Mass', kg(sample.massKg)], ['In', sample.container]],
  };
  if ((sample.retainedKg ?? 0) <= 0 || sample.discarded) return [whole];
  return [
    whole,
    {
      ...shared,
      title: `Sample ${sample.sample}`,
      mark: 'kept back',
      lines: [...common, ['Mass', kg(sample.retainedKg)], ['Keep until', sample.discardOn]],
    },
  ];
};

/** Labels of every sample of a lot, or of one. Sealed tonnages are never on them. */
export const labelSheet = (
  lab: LabWork,
  {
    mix,
    family,
    plant,
    sample,
  }: { readonly mix: string; readonly family: string; readonly plant: string; readonly sample?: number },
): LabelSheet => ({
  lot: lab.lot,
  plant,
  dated: lab.record.wall,
  labels: lab.samples
    .filter((one) => sample === undefined || one.sample === sample)
    .flatMap((one) => labelsOfSample(one, lab.lot, mix, family)),
});
