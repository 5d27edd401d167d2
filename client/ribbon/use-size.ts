/** Width and height of an element in px, kept up to date. */
import { type RefObject, useLayoutEffect, useState } from 'react';

export const useSize = (ref: RefObject<Element | null>): { readonly w: number; readonly h: number } => {
  const [size, setSize] = useState({ w: 0, h: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const watcher = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setSize({ w: entry.contentRect.width, h: entry.contentRect.height });
    });
    watcher.observe(element);
    return () => watcher.disconnect();
  }, [ref]);
  return size;
};
