/** Bookmarks and an auditor's notes: in order of their moment, editable, saved to and taken from a file. */
import { type FormEvent, useRef, useState } from 'react';
import { plural, shiftClock } from '../../format/format.ts';
import { say } from '../../live/said.ts';
import { useReplay, useReplayClient } from '../context.ts';
import { TICK_MS } from '../replay.types.ts';
import { useNoteBook, useNotes } from './note-context.ts';
import { type Note, notesFile, readNotes } from './notes.ts';
import { saveAs } from './save-as.ts';

function NoteItem({ note, startsAt }: { readonly note: Note; readonly startsAt: string }) {
  const replay = useReplayClient();
  const book = useNoteBook();
  const clock = shiftClock(startsAt, note.tick * TICK_MS);
  return (
    <li className="card replay-note">
      <button type="button" className="button num" onClick={() => replay.seek('a', note.tick)}>
        {clock}
        <span className="hidden-words">: go there</span>
      </button>
      <textarea
        rows={2}
        aria-label={`Note at ${clock}`}
        placeholder="Bookmark. Write here what you found."
        value={note.words}
        onChange={(event) => book?.rewrite(note.id, event.target.value)}
      />
      <button
        type="button"
        className="button quiet"
        aria-label={`Remove the note at ${clock}`}
        onClick={() => book?.remove(note.id)}
      >
        ✕
      </button>
    </li>
  );
}

function NewNote({ startsAt }: { readonly startsAt: string }) {
  const at = useReplay((state) => state.at.a);
  const book = useNoteBook();
  const [words, setWords] = useState('');
  const add = (event: FormEvent) => {
    event.preventDefault();
    book?.add(at, words.trim());
    setWords('');
    say('Note added.');
  };
  const clock = shiftClock(startsAt, at * TICK_MS);
  return (
    <form className="card stack" onSubmit={add}>
      <div className="field">
        <label htmlFor="new-note">Note at {clock}</label>
        <textarea id="new-note" rows={2} value={words} onChange={(event) => setWords(event.target.value)} />
      </div>
      <div className="row">
        <button type="submit" className="button primary">
          {words.trim() === '' ? 'Bookmark this moment' : 'Add the note'}
        </button>
      </div>
    </form>
  );
}

export function NotesPage() {
  const opened = useReplay((state) => state.opened);
  const book = useNoteBook();
  const notes = useNotes();
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<{ readonly ok: boolean; readonly words: string } | null>(null);
  if (opened === null || book === null) return null;
  const { startsAt, date } = opened.manifest.shift;
  const take = async (file: File) => {
    const read = readNotes(await file.text(), book.about);
    if (read.ok) book.take(read.notes);
    setSaid(
      read.ok
        ? { ok: true, words: `${plural(read.notes.length, 'note')} taken in.` }
        : { ok: false, words: read.why },
    );
  };
  return (
    <div className="page">
      <div className="page-head">
        <h1>Notes</h1>
        <p className="soft">
          Yours, kept in this browser and not part of the record: they change nothing in it and prove nothing.
        </p>
      </div>
      <NewNote startsAt={startsAt} />
      {notes.length === 0 ? (
        <p className="card empty">
          No bookmark and no note yet. Press B anywhere in the replay to bookmark the moment.
        </p>
      ) : (
        <ul className="stack" aria-label="Notes">
          {notes.map((note) => (
            <NoteItem key={note.id} note={note} startsAt={startsAt} />
          ))}
        </ul>
      )}
      <div className="row">
        <button
          type="button"
          className="button"
          disabled={notes.length === 0}
          onClick={() =>
            saveAs(
              `notes-${date}.json`,
              JSON.stringify(notesFile(opened, notes), null, 2),
              'application/json',
            )
          }
        >
          Save notes to a file
        </button>
        <input
          ref={input}
          type="file"
          accept=".json,application/json"
          className="hidden-words"
          tabIndex={-1}
          aria-label="Notes file"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file !== undefined) void take(file);
            event.target.value = '';
          }}
        />
        <button type="button" className="button" onClick={() => input.current?.click()}>
          Take notes from a file
        </button>
        <p role="status" className={said?.ok === false ? 'warn-words' : ''}>
          {said?.words}
        </p>
      </div>
    </div>
  );
}
