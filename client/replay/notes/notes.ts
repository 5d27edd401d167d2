/** An auditor's bookmarks and notes on one export: kept apart from the record, in this browser, and as a file. */
import { recall, remember } from '../../live/memory.ts';
import { createStore, type Store } from '../../live/store.ts';
import type { Opened } from '../worker/messages.ts';

export type Note = {
  readonly id: string;
  readonly tick: number;
  /** Empty for a mere bookmark. */
  readonly words: string;
  /** Wall clock when it was written, ISO 8601; says nothing about the shift. */
  readonly writtenAt: string;
};

export const NOTES_WHAT = 'notes on a patchyard export; not part of the record';

export type NotesFile = {
  readonly what: typeof NOTES_WHAT;
  readonly format: 1;
  /** Root of the seal, or hash of the last entry of an unsealed export: what the notes are about. */
  readonly about: string;
  readonly shift: { readonly name: string; readonly date: string };
  readonly notes: readonly Note[];
};

const LONGEST_WORDS = 4000;
const MOST_NOTES = 2000;

/** What an export is known by: the root its seal signs, or the hash of its last entry. */
export const aboutOf = ({ manifest }: Pick<Opened, 'manifest'>): string =>
  manifest.seal?.root ?? manifest.entries.head;

const keyOf = (about: string): string => `notes.${about}`;

const isNote = (value: unknown): value is Note => {
  if (typeof value !== 'object' || value === null) return false;
  const note = value as Partial<Note>;
  return (
    typeof note.id === 'string' &&
    Number.isSafeInteger(note.tick) &&
    (note.tick ?? -1) >= 0 &&
    typeof note.words === 'string' &&
    note.words.length <= LONGEST_WORDS &&
    typeof note.writtenAt === 'string'
  );
};

/** In order of their moment. */
const inOrder = (notes: readonly Note[]): readonly Note[] =>
  notes.toSorted((a, b) => a.tick - b.tick || (a.writtenAt < b.writtenAt ? -1 : 1));

const notesIn = (text: string | null): readonly Note[] => {
  if (text === null) return [];
  try {
    const found: unknown = JSON.parse(text);
    return Array.isArray(found) ? inOrder(found.filter(isNote).slice(0, MOST_NOTES)) : [];
  } catch {
    return [];
  }
};

export type ReadNotes =
  | { readonly ok: true; readonly notes: readonly Note[] }
  | { readonly ok: false; readonly why: string };

/** Notes of a file that was written for the same export. */
export const readNotes = (text: string, about: string): ReadNotes => {
  let found: Partial<NotesFile> | null;
  try {
    found = JSON.parse(text) as Partial<NotesFile> | null;
  } catch {
    return { ok: false, why: 'This file holds no notes: choose one that “Save notes to a file” wrote.' };
  }
  if (found?.what !== NOTES_WHAT || !Array.isArray(found.notes))
    return { ok: false, why: 'This file holds no notes: choose one that “Save notes to a file” wrote.' };
  if (found.format !== 1)
    return { ok: false, why: `These notes are of form ${String(found.format)}; this program reads form 1.` };
  if (found.about !== about)
    return {
      ok: false,
      why: `These notes are about another export (${found.shift?.name ?? 'unnamed'}, ${found.shift?.date ?? 'undated'}): open that one first.`,
    };
  if (!found.notes.every(isNote))
    return { ok: false, why: 'A note in this file is not whole: nothing was taken from it.' };
  return { ok: true, notes: found.notes.slice(0, MOST_NOTES) };
};

export const notesFile = (opened: Pick<Opened, 'manifest'>, notes: readonly Note[]): NotesFile => ({
  what: NOTES_WHAT,
  format: 1,
  about: aboutOf(opened),
  shift: { name: opened.manifest.shift.name, date: opened.manifest.shift.date },
  notes,
});

/** Joins notes by their id; the ones taken in win over those there. */
export const joinNotes = (there: readonly Note[], taken: readonly Note[]): readonly Note[] =>
  inOrder([...new Map([...there, ...taken].map((note) => [note.id, note])).values()]);

/** The notes of the export that is open, kept in this browser. */
export class NoteBook {
  readonly store: Store<readonly Note[]>;
  readonly about: string;

  constructor(about: string) {
    this.about = about;
    this.store = createStore(notesIn(recall(keyOf(about))));
  }

  #keep(notes: readonly Note[]): void {
    this.store.set(inOrder(notes).slice(0, MOST_NOTES));
    remember(keyOf(this.about), JSON.stringify(this.store.get()));
  }

  add(tick: number, words: string): void {
    const id = Array.from(crypto.getRandomValues(new Uint8Array(8)), (b) =>
      b.toString(16).padStart(2, '0'),
    ).join('');
    this.#keep([
      ...this.store.get(),
      { id, tick, words: words.slice(0, LONGEST_WORDS), writtenAt: new Date().toISOString() },
    ]);
  }

  rewrite(id: string, words: string): void {
    this.#keep(
      this.store
        .get()
        .map((note) => (note.id === id ? { ...note, words: words.slice(0, LONGEST_WORDS) } : note)),
    );
  }

  remove(id: string): void {
    this.#keep(this.store.get().filter((note) => note.id !== id));
  }

  take(notes: readonly Note[]): void {
    this.#keep(joinNotes(this.store.get(), notes));
  }
}
