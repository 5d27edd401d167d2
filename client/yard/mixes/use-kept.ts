/** A small choice that this browser keeps, such as the conditions a mix is worked out for. */
import { useCallback, useState } from 'react';
import { recall, remember } from '../../live/memory.ts';

const read = <T extends object>(key: string, usual: T): T => {
  try {
    const value: unknown = JSON.parse(recall(key) ?? 'null');
    if (typeof value !== 'object' || value === null) return usual;
    const known = Object.entries(value).filter(
      ([name, one]) => typeof one === typeof (usual as Record<string, unknown>)[name],
    );
    return { ...usual, ...Object.fromEntries(known) };
  } catch {
    return usual;
  }
};

/** The kept value over the usual one; what is not of the kind expected is left out. */
export function useKept<T extends object>(
  key: string,
  usual: T,
): readonly [T, (change: Partial<T>) => void, () => void] {
  const [changes, setChanges] = useState<Partial<T>>(() => {
    const kept = read(key, usual);
    return Object.fromEntries(
      Object.entries(kept).filter(([name, one]) => one !== (usual as Record<string, unknown>)[name]),
    ) as Partial<T>;
  });
  const change = useCallback(
    (more: Partial<T>) => {
      setChanges((before) => {
        const after = { ...before, ...more };
        remember(key, JSON.stringify(after));
        return after;
      });
    },
    [key],
  );
  const reset = useCallback(() => {
    remember(key, 'null');
    setChanges({});
  }, [key]);
  return [{ ...usual, ...changes }, change, reset];
}
