/** Keeps the old object wherever a new one says the same, so that only what changed is drawn again. */

const isPlain = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Returns `next`, with every part that equals the same part of `last` replaced by that very part. */
export function share<T>(last: unknown, next: T): T {
  if (Object.is(last, next)) return next;
  if (Array.isArray(last) && Array.isArray(next)) {
    const shared = next.map((item, i) => share(last[i], item));
    const same = last.length === next.length && shared.every((item, i) => Object.is(item, last[i]));
    return (same ? last : shared) as T;
  }
  if (isPlain(last) && isPlain(next)) {
    const keys = Object.keys(next);
    const shared: { [key: string]: unknown } = {};
    let same = keys.length === Object.keys(last).length;
    for (const key of keys) {
      shared[key] = share(last[key], next[key]);
      if (!(key in last) || !Object.is(shared[key], last[key])) same = false;
    }
    return (same ? last : shared) as T;
  }
  return next;
}
