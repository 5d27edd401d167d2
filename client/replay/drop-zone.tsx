/** A place to drop an export on, or to choose one; what comes of it is the caller's. Nothing is uploaded. */
import { type DragEvent, useRef, useState } from 'react';
import './shift-list.css';

export function DropZone({ onFile }: { readonly onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file !== undefined) onFile(file);
  };
  return (
    <section
      className={over ? 'card drop-zone over' : 'card drop-zone'}
      aria-labelledby="drop-title"
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <h2 id="drop-title">Open an export file</h2>
      <p>Drop it here, or choose it. It is read and checked on this computer; nothing is uploaded.</p>
      <input
        ref={input}
        type="file"
        accept=".zip,application/zip"
        className="hidden-words"
        tabIndex={-1}
        aria-label="Export file"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          if (file !== undefined) onFile(file);
          event.target.value = '';
        }}
      />
      <button type="button" className="button primary" onClick={() => input.current?.click()}>
        Choose a file
      </button>
    </section>
  );
}
