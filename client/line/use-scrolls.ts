/** Whether an element holds more than it shows, so that the keyboard can be given a way to scroll it. */
import { type RefObject, useEffect, useState } from 'react';

export function useScrolls(ref: RefObject<HTMLElement | null>): boolean {
  const [scrolls, setScrolls] = useState(false);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const look = () => setScrolls(element.scrollHeight > element.clientHeight + 1);
    const sizes = new ResizeObserver(look);
    sizes.observe(element);
    for (const child of element.children) sizes.observe(child);
    const children = new MutationObserver(look);
    children.observe(element, { childList: true, subtree: true });
    look();
    return () => {
      sizes.disconnect();
      children.disconnect();
    };
  }, [ref]);
  return scrolls;
}
