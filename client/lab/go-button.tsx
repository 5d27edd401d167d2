/** The next thing to do, focused as soon as it is there, so that it is one Enter away. */
import { useEffect, useRef } from 'react';
import { useLocation } from 'wouter';

export function GoButton({ words, path }: { readonly words: string; readonly path: string }) {
  const ref = useRef<HTMLButtonElement>(null);
  const [, go] = useLocation();
  useEffect(() => ref.current?.focus(), []);
  return (
    <button ref={ref} type="button" className="button primary" onClick={() => go(path)}>
      {words}
    </button>
  );
}
