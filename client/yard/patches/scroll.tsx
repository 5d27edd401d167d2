/** A table that may be wider than the screen: it scrolls by itself, and by keyboard too. */
import type { ReactNode } from 'react';

export function Scroll({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by keyboard
    <section className="yp-scroll" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}
