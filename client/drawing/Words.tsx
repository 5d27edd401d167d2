/** One line of text in the drawing, elided to the room it has. */
import { elide } from './text.ts';

export const LABEL_PX = 12.5;
export const VALUE_PX = 14.5;

type Props = {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** Room in drawing units; longer texts are elided. */
  readonly max: number;
  readonly kind?: 'label' | 'value' | 'name';
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly level?: 'warn' | 'trip' | null;
  /** The mark of the level stands beside it already. */
  readonly isMarked?: boolean;
};

export const Words = ({
  x,
  y,
  text,
  max,
  kind = 'label',
  anchor = 'start',
  level = null,
  isMarked = false,
}: Props) => {
  const isBold = kind === 'value' || level !== null;
  const size = kind === 'value' ? VALUE_PX : LABEL_PX;
  const mark = isMarked ? '' : level === 'trip' ? '■ ' : level === 'warn' ? '▲ ' : '';
  return (
    <text
      x={x}
      y={y}
      textAnchor={anchor}
      fontSize={size}
      className={`pd-text pd-${kind}${level === null ? '' : ` pd-text-${level}`}`}
    >
      {elide(mark + text, max, size, isBold)}
    </text>
  );
};
