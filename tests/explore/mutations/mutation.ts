/** What a mutation is: one thing of the code broken on purpose, the hunt for a breach, and the proof for one that changes nothing. */

/** A breach found: the rule it breaks and the shortest way to it. */
export type Kill = { readonly rule: string; readonly story: string };

export type Mutation = {
  /** The line of code or data that is broken, e.g. `permissive FI-03`. */
  readonly of: string;
  readonly broken: string;
  readonly hunt: () => Kill | null;
  /** What differs from the true code; null when nothing does in any state, which makes the mutation equivalent. */
  readonly differs?: () => string | null;
  /** The proof is quicker than the hunt, so it comes first. */
  readonly proofFirst?: boolean;
};

export type Verdict =
  | { readonly is: 'killed'; readonly rule: string; readonly story: string }
  | { readonly is: 'equivalent' }
  | { readonly is: 'alive'; readonly why: string };

export const judged = ({ hunt, differs, proofFirst }: Mutation): Verdict => {
  if (proofFirst === true && differs?.() === null) return { is: 'equivalent' };
  const kill = hunt();
  if (kill !== null) return { is: 'killed', ...kill };
  if (differs === undefined) return { is: 'alive', why: 'no breach found, and not shown to change nothing' };
  const difference = differs();
  return difference === null ? { is: 'equivalent' } : { is: 'alive', why: difference };
};

/** A story as it is printed begins with the ID of its rule. */
export const killOf = (story: string | null): Kill | null =>
  story === null ? null : { rule: /NR-\d\d/.exec(story)?.[0] ?? 'NR-??', story };
