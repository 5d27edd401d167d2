/** The marks over the band: what persons did as dots in the upper row, everything else below it. */
import { memo, useMemo } from 'react';
import type { RibbonMark } from '../../machines/line/view.types.ts';
import { type Crowd, crowdsOf } from './marks.ts';
import { type Scale, xOf } from './scale.ts';

const MARK_APART_PX = 13;
const DOT_APART_PX = 5;
const DOT_UP_PX = 14;

type Props = { readonly marks: readonly RibbonMark[]; readonly scale: Scale; readonly y: number };

const Glyph = ({ kind, x, y }: { readonly kind: Crowd['kind']; readonly x: number; readonly y: number }) => {
  const shapes: { readonly [K in Crowd['kind']]: string } = {
    trip: 'M-5 -5H5V5H-5Z',
    alarm: 'M0 -6L6 5H-6Z',
    refusal: 'M-4.500 -4.500L4.500 4.500M4.500 -4.500L-4.500 4.500',
    sample: 'M-4 7V-6H6L3 -2.500L6 1H-4',
    person: 'M-1.800 0a1.800 1.800 0 1 0 3.600 0a1.800 1.800 0 1 0 -3.600 0',
  };
  return <path d={shapes[kind]} transform={`translate(${x} ${y})`} className={`rb-mark rb-mark-${kind}`} />;
};

export const MarkRows = memo(({ marks, scale, y }: Props) => {
  const msPerPx = scale.spanMs / scale.widthPx;
  const events = useMemo(() => crowdsOf(marks, MARK_APART_PX * msPerPx, 'event'), [marks, msPerPx]);
  const persons = useMemo(() => crowdsOf(marks, DOT_APART_PX * msPerPx, 'person'), [marks, msPerPx]);
  const inSight = (crowd: Crowd) =>
    crowd.atMs >= scale.fromMs - 8 * msPerPx && crowd.atMs <= scale.fromMs + scale.spanMs + 8 * msPerPx;
  return (
    <g>
      {persons.filter(inSight).map((crowd) => (
        <Glyph key={crowd.atMs} kind="person" x={xOf(scale, crowd.atMs)} y={y - DOT_UP_PX} />
      ))}
      {events.filter(inSight).map((crowd) => (
        <Glyph key={crowd.atMs} kind={crowd.kind} x={xOf(scale, crowd.atMs)} y={y} />
      ))}
    </g>
  );
});
MarkRows.displayName = 'MarkRows';
