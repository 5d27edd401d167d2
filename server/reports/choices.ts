/** What a report can be asked for in this record: real choices for the filters, from the index. */
import type { Choices } from '../../machines/reports/choices.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import type { Store } from '../store/store.ts';

/** Names of the books that are no material anybody weighs. */
const NOT_WEIGHED = new Set(['mix', 'waste', 'aggregate', 'binder']);

export const choicesOf = async (store: Store, asked: number | undefined): Promise<Choices> => {
  const shifts = await store.shifts();
  const shift = shifts.find((one) => one.shift === asked) ?? shifts.at(-1) ?? null;
  const keys = async (kind: 'lot' | 'batch' | 'person' | 'material'): Promise<string[]> =>
    shift === null ? [] : (await store.mentions(kind, shift.shift)).map((mention) => mention.key);
  const [opening] =
    shift === null ? [] : await store.read({ after: shift.shift - 1, limit: 1, kind: 'opening' });
  const scenario =
    opening?.kind === 'opening'
      ? ((await store.loadScenario(opening.body.scenarioDigest)) as Scenario | null)
      : null;
  return {
    shifts: shifts.map((one) => ({
      shift: one.shift,
      scenario: one.scenario,
      day: one.day,
      ended: one.endedWall !== null,
      sealed: one.seal !== null,
      batches: one.batches,
      lots: one.lots,
    })),
    shift: shift?.shift ?? null,
    lots: await keys('lot'),
    batches: (await keys('batch')).map(Number).sort((a, b) => a - b),
    people: (await keys('person')).map((id) => ({
      id,
      name: scenario?.people.find((person) => person.id === id)?.name ?? id,
    })),
    materials: (await keys('material')).filter((material) => !NOT_WEIGHED.has(material)),
  };
};
