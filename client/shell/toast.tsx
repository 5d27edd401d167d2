/** What the last shortcut did, for some seconds, until it is closed or another one is used. */
import { useEffect } from 'react';
import { useStore } from '../live/store.ts';
import { toast } from './shortcuts.ts';

const SHOWN_MS = 8000;

export function Toast() {
  const text = useStore(toast, (value) => value);
  useEffect(() => {
    if (text === '') return;
    const timer = setTimeout(() => toast.set(''), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [text]);
  if (text === '') return null;
  return (
    <section className="toast" aria-label="Message">
      <span>{text}</span>
      <button
        type="button"
        className="button quiet"
        onClick={() => toast.set('')}
        aria-label="Close this message"
      >
        ✕
      </button>
    </section>
  );
}
