/** What the ribbon shows of its stretch of time, as one SVG in px. */
import { useId, useMemo } from 'react';
import type { LineView } from '../../machines/line/view.types.ts';
import { textWidthPx } from '../drawing/text.ts';
import { Bands } from './Bands.tsx';
import { BracketRow } from './BracketRow.tsx';
import type { Bracket } from './brackets.ts';
import { MarkRows } from './MarkRows.tsx';
import { StepNames } from './StepNames.tsx';
import { type Scale, ticksOf, xOf } from './scale.ts';

const LABEL_PX = 12.5;
const TICK_APART_PX = 78;
const HOURS_Y = 12;
const MARKS_Y = 34;
const BAND_Y = 44;
const BRACKETS_H = 36;
const LEAST_BAND_PX = 22;
const MOST_BAND_PX = 56;

type Props = {
  readonly view: LineView;
  readonly brackets: readonly Bracket[];
  readonly scale: Scale;
  readonly heightPx: number;
  readonly sidePx: number;
  /** Where a replay stands, or null. */
  readonly at: number | null;
  /** Where a pointer or the reading line is, or null. */
  readonly cursorMs: number | null;
};

const HoldHatch = ({ id }: { readonly id: string }) => (
  <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <rect width="6" height="6" className="rb-hatch-ground" />
    <path d="M1.5 0V6" className="rb-hatch-line" />
  </pattern>
);

export const RibbonPicture = ({ view, brackets, scale, heightPx, sidePx, at, cursorMs }: Props) => {
  const hatchId = useId();
  const clipId = useId();
  const { shift, ribbon } = view;
  const finished = useMemo(() => ribbon.blocks.filter((block) => block.toMs !== null), [ribbon.blocks]);
  const running = useMemo(() => ribbon.blocks.filter((block) => block.toMs === null), [ribbon.blocks]);
  const pxPerMs = scale.widthPx / scale.spanMs;
  const bandH = Math.min(MOST_BAND_PX, Math.max(LEAST_BAND_PX, heightPx - BAND_Y - BRACKETS_H));
  const nowX = xOf(scale, shift.atMs);
  // In a replay the end of what is known is not now: the handle is.
  const hasNow = at === null && nowX >= 0 && nowX <= scale.widthPx;
  const nowFits = nowX + textWidthPx('now', LABEL_PX) + 8 < scale.widthPx + sidePx;
  const nowLeft = nowX - 5 - textWidthPx('now', LABEL_PX);
  const nowTaken: readonly [number, number] = nowFits
    ? [nowX - 4, nowX + 8 + textWidthPx('now', LABEL_PX)]
    : [nowLeft - 4, nowX + 4];
  const lineEnd = BAND_Y + bandH + 8;
  return (
    <svg width={scale.widthPx + 2 * sidePx} height={heightPx} className="rb-svg" aria-hidden="true">
      <defs>
        <HoldHatch id={hatchId} />
        <clipPath id={clipId}>
          <rect x={-sidePx} y={0} width={scale.widthPx + 2 * sidePx} height={heightPx} />
        </clipPath>
      </defs>
      <g transform={`translate(${sidePx} 0)`} clipPath={`url(#${clipId})`}>
        {ticksOf(scale, shift.startsAt, TICK_APART_PX).map((tick) => {
          const x = xOf(scale, tick.atMs);
          const w = textWidthPx(tick.label, LABEL_PX);
          const isFree = !hasNow || x + w < nowTaken[0] || x > nowTaken[1];
          const fits = x + w <= scale.widthPx + sidePx;
          return (
            <g key={tick.atMs}>
              <path d={`M${x} ${BAND_Y - 4}V${BAND_Y + bandH + 4}`} className="rb-tick" />
              {isFree && fits && (
                <text x={x} y={HOURS_Y} fontSize={LABEL_PX} className="rb-label">
                  {tick.label}
                </text>
              )}
            </g>
          );
        })}
        <path d={`M0 ${BAND_Y + bandH + 0.5}H${scale.widthPx}`} className="rb-ground" />
        <g transform={`translate(${-scale.fromMs * pxPerMs} 0)`}>
          <Bands blocks={finished} pxPerMs={pxPerMs} y={BAND_Y} h={bandH} hatchId={hatchId} nowMs={0} />
          <Bands
            blocks={running}
            pxPerMs={pxPerMs}
            y={BAND_Y}
            h={bandH}
            hatchId={hatchId}
            nowMs={shift.atMs}
          />
        </g>
        <StepNames
          blocks={ribbon.blocks}
          scale={scale}
          y={BAND_Y + bandH / 2 + 4.5}
          sidePx={sidePx}
          nowMs={shift.atMs}
        />
        <MarkRows marks={ribbon.marks} scale={scale} y={MARKS_Y} />
        <BracketRow
          brackets={brackets}
          scale={scale}
          y={BAND_Y + bandH + 12}
          sidePx={sidePx}
          sizePx={LABEL_PX}
        />
        {hasNow && (
          <g>
            <path d={`M${nowX} 2V${lineEnd}`} className="rb-now" />
            <text x={nowFits ? nowX + 5 : nowLeft} y={HOURS_Y} fontSize={LABEL_PX} className="rb-strong">
              now
            </text>
          </g>
        )}
        {cursorMs !== null && (
          <path d={`M${xOf(scale, cursorMs)} ${HOURS_Y + 4}V${lineEnd}`} className="rb-cursor" />
        )}
        {at !== null && (
          <g transform={`translate(${xOf(scale, at)} 0)`}>
            <path d={`M0 ${HOURS_Y + 6}V${lineEnd}`} className="rb-at" />
            <path
              d={`M-7 ${HOURS_Y + 2}H7V${HOURS_Y + 9}L0 ${HOURS_Y + 17}L-7 ${HOURS_Y + 9}Z`}
              className="rb-handle"
            />
          </g>
        )}
      </g>
    </svg>
  );
};
