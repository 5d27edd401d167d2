/** State values as short words, for facts and screens. */

/** The innermost state name of a value without parallel regions; regions are joined with '+'. */
export const leafOf = (value: unknown): string => {
  if (typeof value === 'string') return value;
  if (typeof value !== 'object' || value === null) return '';
  return Object.entries(value)
    .map(([key, inner]) =>
      typeof inner === 'object' && Object.keys(inner as object).length === 0
        ? key
        : `${key}.${leafOf(inner)}`,
    )
    .join('+');
};
