/** The notes on the export that is open, for every page of the replay. */
import { createContext, useContext } from 'react';
import { createStore, useStore } from '../../live/store.ts';
import type { Note, NoteBook } from './notes.ts';

export const NotesContext = createContext<NoteBook | null>(null);

const NO_NOTES: readonly Note[] = [];
const NO_BOOK = createStore(NO_NOTES);

export const useNoteBook = (): NoteBook | null => useContext(NotesContext);

export const useNotes = (): readonly Note[] => useStore(useNoteBook()?.store ?? NO_BOOK, (notes) => notes);
