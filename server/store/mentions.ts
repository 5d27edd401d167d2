/** What an entry names that people look for later: lots, batches, people, materials, mixes. */
import type { Entry } from '../../machines/record/entry.ts';
import type { IndexKind } from './store.ts';

/** Raised whenever an entry would be indexed differently; the index is then made again when a record is opened. */
export const PROJECTIONS_VERSION = 1;

export type Named = readonly [kind: IndexKind, key: string];

type Loose = { readonly [key: string]: unknown };
const isLoose = (value: unknown): value is Loose => typeof value === 'object' && value !== null;

const LOT_ACCOUNT = 'lot:';

/** A person who did or confirmed something; the line itself is nobody. */
const personOf = (value: unknown): string | null =>
  isLoose(value) && typeof value.person === 'string' && value.role !== 'line' ? value.person : null;

/**
 * By the names of a fact's fields rather than by its kind, so that a new fact is found as well: `lot`, `batch`,
 * `mix`, `material`, `product`, `part`, `parts`, accounts of lots, and whoever is named with person and role.
 */
const collect = (fact: Loose, into: Set<string>): void => {
  const add = (kind: IndexKind, key: unknown) => {
    if (typeof key === 'string' && key !== '') into.add(`${kind}\n${key}`);
  };
  add('lot', fact.lot);
  add('mix', fact.mix);
  add('material', fact.material);
  add('material', fact.product);
  if (typeof fact.batch === 'number') add('batch', String(fact.batch));
  for (const account of [fact.from, fact.to])
    if (typeof account === 'string' && account.startsWith(LOT_ACCOUNT))
      add('lot', account.slice(LOT_ACCOUNT.length));
  for (const value of Object.values(fact)) {
    add('person', personOf(value));
    for (const part of Array.isArray(value) ? value : [value]) {
      if (!isLoose(part)) continue;
      add('material', part.material);
      if (isLoose(part.accepted)) add('person', personOf(part.accepted.by));
    }
  }
};

/** Each name once, in no particular order. Readings and notes name nothing. */
export const namedBy = (entry: Entry): Named[] => {
  const names = new Set<string>();
  if (entry.kind === 'command') {
    const person = personOf(entry.body.envelope.by);
    if (person !== null) names.add(`person\n${person}`);
  } else if (entry.kind === 'fact') collect(entry.body.fact, names);
  else if (entry.kind === 'ledger') {
    collect(entry.body.fact, names);
    const person = personOf(entry.body.by);
    if (person !== null) names.add(`person\n${person}`);
    for (const value of Object.values(entry.body.fact))
      for (const part of Array.isArray(value) ? value : [])
        if (isLoose(part) && typeof part.lot === 'string' && part.lot !== '') names.add(`lot\n${part.lot}`);
  } else if (entry.kind === 'seal' || entry.kind === 'countersignature') {
    if (entry.body.by !== null) names.add(`person\n${entry.body.by.person}`);
  }
  return [...names].map((name) => {
    const cut = name.indexOf('\n');
    return [name.slice(0, cut) as IndexKind, name.slice(cut + 1)];
  });
};
