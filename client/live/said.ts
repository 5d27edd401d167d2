/** What a screen reader is told in passing: one line, spoken when the reader has a moment. */
import { createStore, useStore } from './store.ts';

const saidStore = createStore<{ readonly text: string; readonly turn: number }>({ text: '', turn: 0 });

/** Reasons as one sentence after another, each ended once. */
export const sentences = (texts: readonly string[]): string =>
  texts.map((text) => text.replace(/[.\s]+$/, '')).join('. ');

/** Speaks the text politely; the same text twice is spoken twice. */
export const say = (text: string): void => saidStore.set({ text, turn: saidStore.get().turn + 1 });

export const useSaid = () => useStore(saidStore, (said) => said);
