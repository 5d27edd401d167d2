/** Checks the sampling plans of a data folder and of an export: what was opened against what was committed. */
import { PLAN_FACTS, type PlansChecked, planChecker } from '../../machines/lab/plan-checker.ts';
import type { Entry } from '../../machines/record/entry.ts';
import type { ExportReader } from '../../machines/record/export.types.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { Store } from '../store/store.ts';

const PAGE = 5_000;

const every = async (
  store: Store,
  query: { readonly kind: Entry['kind']; readonly fact?: string },
): Promise<Entry[]> => {
  const all: Entry[] = [];
  for (let after = 0; ; ) {
    const page = await store.read({ after, limit: PAGE, ...query });
    all.push(...page);
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return all;
    after = last.seq;
  }
};

/** Of shifts whose entries are in the folder; those of archived ones are checked with their file. */
export const plansOfRecord = async (store: Store): Promise<PlansChecked> => {
  const openings = await every(store, { kind: 'opening' });
  const scenarios = new Map<string, Scenario | null>();
  for (const opening of openings) {
    if (opening.kind !== 'opening') continue;
    const digest = opening.body.scenarioDigest;
    if (!scenarios.has(digest)) scenarios.set(digest, (await store.loadScenario(digest)) as Scenario | null);
  }
  const entries = [...openings];
  for (const fact of PLAN_FACTS) entries.push(...(await every(store, { kind: 'fact', fact })));
  const checker = planChecker((digest) => scenarios.get(digest) ?? null);
  for (const entry of entries.sort((a, b) => a.seq - b.seq)) checker.take(entry);
  return checker.finish();
};

export const plansOfExport = async (reader: ExportReader): Promise<PlansChecked> => {
  const scenario = await reader.scenario();
  const checker = planChecker(() => scenario);
  for await (const entries of reader.entries()) for (const entry of entries) checker.take(entry);
  return checker.finish();
};

/** What an auditor should know, in words; nothing where there are no plans. */
export const plansWords = ({ hold, sealed }: PlansChecked): string[] => [
  ...(hold === 0
    ? []
    : [
        hold === 1
          ? '1 sampling plan was opened and holds against its commitment'
          : `${hold} sampling plans were opened and hold against their commitments`,
      ]),
  ...(sealed.length === 0 ? [] : [`Still sealed: the sampling plan of lot ${sealed.join(', ')}`]),
];
