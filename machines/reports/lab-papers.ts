/** The lab's work on a lot as its papers show it: people by name, readings with their labels, results against limits. */

import { daysAfter } from '../lab/dates.ts';
import type { FieldChange } from '../lab/facts.ts';
import type { ResultJudged } from '../lab/judge/judge.types.ts';
import {
  limitWords,
  propertyWords,
  roundedTo,
  valueWords,
  windowOf,
  worstBroken,
} from '../lab/judge/limits.ts';
import { sortRetests } from '../lab/judge/retests.ts';
import { ruleFor } from '../lab/judge/verdict.ts';
import { planText } from '../lab/plan.ts';
import { sheetContext } from '../lab/sheet-work.ts';
import { judgementOf, lotResults, specificationOf } from '../lab/standing.ts';
import type { LabLot, LabSample, LabState, LabWorksheet } from '../lab/state.ts';
import { mean } from '../lab/stats/describe.ts';
import { pwlOf } from '../lab/stats/pwl.ts';
import { type FieldSpec, fieldsOf, SHEETS } from '../lab/worksheets/index.ts';
import { propertyOf } from '../scenario/lab-tests.ts';
import type { Limit } from '../scenario/specification.schema.ts';
import type { LabLine, LabSamplePrint, LabSheetPrint, LabWork } from './lab-work.ts';

/** How a person is named on paper: by name where the list knows the id, else as written. */
export type NameOf = (person: string) => string;

/** The entry that decided, found in the record. */
export type DecisionFound = NonNullable<LabWork['decision']>;

const stamp = (at: string): string => at.replace('T', ' ');
const known = (at: string | null): string | null => (at === null ? null : stamp(at));

const said = (value: unknown): string => {
  if (value === null || value === undefined || value === '') return 'nothing';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
};
const changesWords = (changes: readonly FieldChange[], labelOf: (field: string) => string): string =>
  changes.map(({ field, was, now }) => `${labelOf(field)} ${said(was)} made ${said(now)}`).join('; ');

const SAMPLE_FIELDS: { readonly [field: string]: string } = {
  massKg: 'mass, kg,',
  container: 'container',
  retainedKg: 'kept back, kg,',
  discardOn: 'kept until',
};

const samplePrint = (sample: LabSample, nameOf: NameOf): LabSamplePrint => ({
  sample: sample.n,
  test: sample.test,
  part: `${sample.part} of ${sample.ofParts}`,
  state: sample.state,
  atKg: sample.atKg,
  takenBy: sample.takenBy === null ? null : nameOf(sample.takenBy),
  taken: known(sample.takenAt),
  batch: sample.batch,
  massKg: sample.massKg,
  container: sample.container,
  label: sample.label,
  retainedKg: sample.retainedKg,
  discardOn: sample.discardOn,
  discarded: sample.discarded,
  substitute:
    sample.substitute === null
      ? null
      : `from the ${sample.substitute.source}${sample.substitute.ofSample === null ? '' : ` of sample ${sample.substitute.ofSample}`}: ${sample.substitute.reason}`,
  custody: sample.custody.map((one) => ({
    at: stamp(one.at),
    from: nameOf(one.from),
    to: nameOf(one.to),
    remark: one.remark,
  })),
  corrections: sample.corrections.map((one) => ({
    at: stamp(one.at),
    by: nameOf(one.by),
    reason: one.reason,
    changes: changesWords(one.changes, (field) => SAMPLE_FIELDS[field] ?? field),
  })),
});

const decimalsOf = (property: string): number => propertyOf(property)?.decimals ?? 2;

/** As the sheet asks for them: keys of an object have no order once they have been through the record. */
const inOrder = (keys: readonly string[], fields: readonly FieldSpec[]): readonly string[] => {
  const asked = fields.map((field) => field.key);
  const place = (key: string): number => (asked.includes(key) ? asked.indexOf(key) : asked.length);
  return [...keys].sort((a, b) => place(a) - place(b) || (a < b ? -1 : 1));
};

const sheetPrint = (state: LabState, lot: LabLot, sheet: LabWorksheet, nameOf: NameOf): LabSheetPrint => {
  const known = SHEETS[sheet.sheet];
  const context = sheetContext(state, lot, sheet.sample, sheet.enteredAt, sheet.retest);
  const fields = fieldsOf(known, sheet.readings, context);
  const labelOf = (key: string): string => fields.find((field) => field.key === key)?.label ?? key;
  const worked = known.workOut(sheet.readings, context);
  return {
    id: sheet.id,
    title: known.title,
    test: sheet.test,
    sample: sheet.sample,
    retest: sheet.retest,
    testedBy: nameOf(sheet.testedBy),
    tested: stamp(sheet.testedAt),
    enteredBy: nameOf(sheet.enteredBy),
    entered: stamp(sheet.enteredAt),
    balance: sheet.balance,
    simulated: sheet.simulated,
    readings: inOrder(Object.keys(sheet.readings), fields).flatMap((key) => {
      const value = sheet.readings[key] ?? null;
      if (value === null || value === '') return [];
      const field = fields.find((one) => one.key === key);
      const choice = field?.choices?.find((one) => one.is === value)?.label;
      return [
        {
          label: field?.label ?? key,
          value: choice ?? (field?.kind === 'time' ? stamp(String(value)) : String(value)),
          unit: field?.unit ?? '',
        },
      ];
    }),
    working: worked.ok
      ? worked.working.map(({ label, formula, numbers, value, unit, decimals }) => ({
          label,
          numbers: numbers === '' ? formula : `${formula} = ${numbers}`,
          value,
          unit,
          decimals,
        }))
      : [],
    results: sheet.results.map(({ property, value, unit }) => ({
      property,
      words: propertyWords(property),
      value,
      unit,
      decimals: decimalsOf(property),
    })),
    notes: [...sheet.notes],
    departures: [...sheet.departures],
    remark: sheet.remark,
    corrections: sheet.corrections.map((one) => ({
      at: stamp(one.at),
      by: nameOf(one.by),
      reason: one.reason,
      changes: changesWords(one.changes, labelOf),
      was: one.wasResults
        .map(({ property, value }) => `${propertyWords(property)} ${valueWords(property, value)}`)
        .join(', '),
    })),
    aside:
      sheet.aside === null
        ? null
        : `${nameOf(sheet.aside.by)}, ${stamp(sheet.aside.at)}: ${sheet.aside.reason}`,
    photos: sheet.photos.map((one) => ({ ...one, at: stamp(one.at), by: nameOf(one.by) })),
  };
};

/** All limits that hold for a property as one window. */
const windowWords = (limits: readonly Limit[]): string => {
  const [first] = limits;
  if (first === undefined) return '';
  const { from, to } = windowOf(limits);
  return limitWords({ ...first, ...(from === null ? {} : { from }), ...(to === null ? {} : { to }) });
};

/** Every result of a property, sample by sample; a retest stands behind the first test of its sample. */
const bySample = (results: readonly ResultJudged[], decimals: number): string => {
  const samples = new Map<number, string[]>();
  for (const { sample, value } of results)
    samples.set(sample, [...(samples.get(sample) ?? []), roundedTo(value, decimals).toFixed(decimals)]);
  return [...samples.values()].map((values) => values.join(' then ')).join(', ');
};

/** One line a property with a limit, as the verdict went. */
const linesOf = (state: LabState, lot: LabLot): LabLine[] => {
  const spec = specificationOf(state, lot);
  const judged = judgementOf(state, lot);
  if (spec === null || judged === null) return [];
  const properties = [...new Set(judged.results.map((one) => one.property))];
  const { counted } = sortRetests(spec.retest, lotResults(lot));
  return properties.flatMap((property): LabLine[] => {
    const own = judged.results.filter((one) => one.property === property);
    const [first] = own;
    if (first === undefined || first.limits.length === 0) return [];
    const failing = judged.failing.find((one) => one.property === property);
    const values = counted.filter((one) => one.property === property).flatMap((one) => one.values);
    const rule = ruleFor(spec, first.test, values.length);
    const worst = values.find((value) => worstBroken(value, first.limits).length > 0) ?? values[0] ?? 0;
    const share = pwlOf(values, windowOf(first.limits))?.withinPct ?? 0;
    const value = failing?.value ?? (rule === 'each' ? worst : rule === 'mean' ? mean(values) : share);
    const limit = failing?.limit ?? first.limits[0];
    if (limit === undefined) return [];
    // Rounded as it was before it was held against the limit: 4.46 passes at least 4.5 because it is 4.5.
    const decimals = rule === 'share within' ? 1 : (limit.decimals ?? decimalsOf(property));
    return [
      {
        property,
        words: propertyWords(property),
        unit: rule === 'share within' ? '%' : first.unit,
        decimals,
        values: bySample(own, decimalsOf(property)),
        judged: roundedTo(value, decimals),
        rule,
        limit: windowWords(first.limits),
        source: limit.source,
        status: limit.status,
        within: failing === undefined,
      },
    ];
  });
};

/** Everything the papers say of a lot; pure. `decision` and `record` are the entries it rests on. */
export const labWorkOf = (
  state: LabState,
  lot: LabLot,
  {
    nameOf,
    decision,
    record,
  }: { readonly nameOf: NameOf; readonly decision: DecisionFound | null; readonly record: LabWork['record'] },
): LabWork => {
  const spec = specificationOf(state, lot);
  const judged = judgementOf(state, lot);
  const { plan } = lot;
  const opened = plan !== null && plan.nonce !== null && plan.atKg !== null ? plan : null;
  const drawn = opened?.atKg ?? [];
  return {
    lot: lot.lot,
    state: lot.state,
    done: lot.done,
    verdict: lot.verdict,
    specification:
      spec === null
        ? null
        : {
            id: spec.id,
            version: spec.version,
            name: spec.name,
            source: spec.source,
            shelfLifeDays: spec.shelfLife.days,
          },
    missing: [...lot.missing],
    failing: [...lot.failing],
    contradictions: (judged?.contradictions ?? []).map((one) => one.words),
    notes: [...(spec === null ? [] : [`How it is judged: ${spec.verdict.why}`]), ...(judged?.notes ?? [])],
    lines: linesOf(state, lot),
    samples: lot.samples.map((sample) => samplePrint(sample, nameOf)),
    sheets: lot.worksheets.map((sheet) => sheetPrint(state, lot, sheet, nameOf)),
    events: lot.events.map((one) => ({
      at: stamp(one.at),
      by: nameOf(one.by),
      what: one.what,
      reason: one.reason,
    })),
    plan:
      plan === null
        ? null
        : {
            commitment: plan.commitment,
            nonce: plan.nonce,
            findings: plan.findings === null ? null : [...plan.findings],
            text:
              opened?.nonce == null
                ? null
                : planText(
                    lot.lot,
                    opened.nonce,
                    lot.samples.map(({ n, test }, i) => ({ n, test, atKg: drawn[i] ?? 0 })),
                  ),
          },
    decision,
    record,
    keepsUntil: spec === null || lot.closedAt === null ? null : daysAfter(lot.closedAt, spec.shelfLife.days),
  };
};
