/** Where a table comes from: pasted, or a file that is chosen or dropped. */
import { type ClipboardEvent, type DragEvent, useId, useRef, useState } from 'react';
import { type Source, type SourceOr, sourceOf, sourceOfFile } from './table-source.ts';

/** More than this is not shown in the box again: it would make the page slow. */
const SHOWN_SIGNS = 20_000;

export function SourceBox({
  onSource,
  onTrouble,
}: {
  readonly onSource: (source: Source) => void;
  readonly onTrouble: (why: string) => void;
}) {
  const [text, setText] = useState('');
  const [over, setOver] = useState(false);
  const file = useRef<HTMLInputElement>(null);
  const id = useId();
  const got = (found: SourceOr) => {
    if (found.ok) return onSource(found.source);
    // What could not be read makes room for the next try.
    setText('');
    onTrouble(found.why);
  };
  const pasted = (event: ClipboardEvent<HTMLTextAreaElement>) => {
    const clip = event.clipboardData.getData('text/plain');
    if (clip.length <= SHOWN_SIGNS && text !== '') return;
    event.preventDefault();
    if (clip.length <= SHOWN_SIGNS) setText(clip);
    got(sourceOf(clip, 'pasted', null));
  };
  const dropped = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const [first] = event.dataTransfer.files;
    if (first !== undefined) void sourceOfFile(first).then(got);
  };
  return (
    <div className="yp-sources">
      <div className="field">
        <label htmlFor={id}>Paste rows from a spreadsheet</label>
        <textarea
          id={id}
          rows={6}
          spellCheck={false}
          value={text}
          placeholder={'Place\tRoute\tLength\tWidth\tDepth\nMill Lane 4\tNorth\t1.2\t0.8\t60'}
          onPaste={pasted}
          onChange={(event) => setText(event.target.value)}
        />
        <div className="row">
          <button
            type="button"
            className="button"
            data-barred={text.trim() === ''}
            onClick={() => got(sourceOf(text, 'pasted', null))}
          >
            Read these rows
          </button>
        </div>
      </div>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button beside it is the first */}
      <div
        className={over ? 'yp-drop over' : 'yp-drop'}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={dropped}
      >
        <p>Drop a CSV file here, or</p>
        <button type="button" className="button" onClick={() => file.current?.click()}>
          Choose a file
        </button>
        <input
          ref={file}
          type="file"
          className="hidden-words"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          aria-label="CSV file with patches"
          tabIndex={-1}
          onChange={(event) => {
            const [first] = event.target.files ?? [];
            if (first !== undefined) void sourceOfFile(first).then(got);
            event.target.value = '';
          }}
        />
        <p className="soft">
          Up to 5 000 patches. One hole a row: place, length, width, depth; route, base reached, compacted by
          and surface if there are. Nothing is taken before you have seen it.
        </p>
      </div>
    </div>
  );
}
