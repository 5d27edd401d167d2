/** The marks that stand beside every colour: shape first, so that colour is never alone. */
import type { ReactNode } from 'react';
import type { Standing } from '../../machines/line/view.types.ts';

export type Shape = 'dot' | 'ring' | 'triangle' | 'diamond' | 'square' | 'check' | 'flag';

const SHAPES: { readonly [K in Shape]: ReactNode } = {
  dot: <circle cx="7" cy="7" r="5" fill="currentColor" />,
  ring: <circle cx="7" cy="7" r="4.6" fill="none" stroke="currentColor" strokeWidth="2.2" />,
  triangle: <path d="M7 .8 13.6 12.6H.4z" fill="currentColor" />,
  diamond: <path d="M7 .3 13.7 7 7 13.7.3 7z" fill="currentColor" />,
  square: <rect x="1.5" y="1.5" width="11" height="11" fill="currentColor" />,
  check: <path d="M1.5 7.5 5.5 11.5 12.5 2.5" fill="none" stroke="currentColor" strokeWidth="2.4" />,
  flag: <path d="M2 13.5V1h10L9.5 4.5 12 8H3.5v5.5z" fill="currentColor" />,
};

export function Mark({ shape }: { readonly shape: Shape }) {
  return (
    <svg className="mark" viewBox="0 0 14 14" aria-hidden="true">
      {SHAPES[shape]}
    </svg>
  );
}

export const STANDING_SHAPE: { readonly [K in Standing]: Shape } = {
  met: 'dot',
  unmet: 'ring',
  alarm: 'triangle',
};

export const STANDING_WORDS: { readonly [K in Standing]: string } = {
  met: 'met',
  unmet: 'not met',
  alarm: 'alarm',
};
