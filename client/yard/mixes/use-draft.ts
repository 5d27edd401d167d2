/** A mix being worked on at this console: every step can be undone, and a reload loses nothing. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { type Mix, mixSchema } from '../../../machines/scenario/mix.schema.ts';
import { recall, remember } from '../../live/memory.ts';

/** What is kept of a mix that is being worked on. `content` may break its schema while a person types. */
export type Draft = {
  readonly content: Mix;
  readonly from: { readonly mix: string; readonly version: number };
};

const STEPS_KEPT = 100;
const STEPS_SAVED = 20;
/** Changes of one field that follow each other this fast count as one step, ms. */
const ONE_STEP_MS = 700;

const keyOf = (mix: string): string => `mix-draft.${mix}`;

type Kept = { readonly now: Draft; readonly before: readonly Draft[] };

/** A shape that other code can rely on: all fields there and of their kind, though figures may be out of range. */
const isDraft = (value: unknown): value is Draft => {
  const draft = value as Partial<Draft> | null;
  if (draft === null || typeof draft !== 'object' || typeof draft.from?.version !== 'number') return false;
  const read = mixSchema.safeParse(draft.content);
  return read.success || read.error.issues.every((issue) => issue.code !== 'invalid_type');
};

const kept = (mix: string): Kept | null => {
  try {
    const value = JSON.parse(recall(keyOf(mix)) ?? 'null') as Kept | null;
    if (value === null || !isDraft(value.now) || !Array.isArray(value.before)) return null;
    return { now: value.now, before: value.before.filter(isDraft) };
  } catch {
    return null;
  }
};

export const hasDraft = (mix: string): boolean => kept(mix) !== null;

export const forgetDraft = (mix: string): void => remember(keyOf(mix), 'null');

export type DraftHere = {
  readonly content: Mix;
  readonly from: Draft['from'];
  readonly change: (field: string, content: Mix) => void;
  readonly undo: (() => void) | null;
  /** Back to a version as it stands, as a step that can be undone. */
  readonly startFrom: (content: Mix) => void;
  readonly forget: () => void;
  /** Whether anything differs from the version it was begun from. */
  readonly changed: boolean;
};

export function useDraft(mix: string, version: Mix): DraftHere {
  const fresh = (content: Mix): Draft => ({ content, from: { mix: content.id, version: content.version } });
  const [state, setState] = useState<Kept>(() => kept(mix) ?? { now: fresh(version), before: [] });
  const last = useRef({ field: '', at: 0 });

  useEffect(() => {
    if (state.before.length === 0) return;
    remember(keyOf(mix), JSON.stringify({ now: state.now, before: state.before.slice(-STEPS_SAVED) }));
  }, [mix, state]);

  const step = useCallback((now: (before: Draft) => Draft, joined: boolean) => {
    setState((state) => ({
      now: now(state.now),
      before: joined ? state.before : [...state.before, state.now].slice(-STEPS_KEPT),
    }));
  }, []);

  const change = useCallback(
    (field: string, content: Mix) => {
      const at = performance.now();
      const joined = last.current.field === field && at - last.current.at < ONE_STEP_MS;
      last.current = { field, at };
      step((before) => ({ ...before, content }), joined);
    },
    [step],
  );

  return {
    content: state.now.content,
    from: state.now.from,
    change,
    undo:
      state.before.length === 0
        ? null
        : () => {
            last.current = { field: '', at: 0 };
            setState((held) => {
              const now = held.before.at(-1) ?? held.now;
              const before = held.before.slice(0, -1);
              if (before.length === 0) remember(keyOf(mix), JSON.stringify({ now, before }));
              return { now, before };
            });
          },
    startFrom: (content) => {
      last.current = { field: '', at: 0 };
      step(() => fresh(content), false);
    },
    forget: () => {
      forgetDraft(mix);
      setState({ now: fresh(version), before: [] });
    },
    changed: state.before.length > 0,
  };
}
