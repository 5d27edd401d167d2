/** The shift as a ribbon of time running past: blocks of steps, lots below, marks above; also the scrubber of a replay. */
import { type KeyboardEvent, type PointerEvent, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { LineView } from '../../machines/line/view.types.ts';
import { bracketsOf } from './brackets.ts';
import { keyedBlockMs, keyedMs, ZOOM_KEYS } from './keys.ts';
import { Legend } from './Legend.tsx';
import { RibbonPicture } from './RibbonPicture.tsx';
import './ribbon.css';
import { fitReadout, readoutAt, SEPARATOR } from './readout.ts';
import { msAt, type Scale } from './scale.ts';
import { useSize } from './use-size.ts';
import { useWindow } from './use-window.ts';
import { ZoomBar } from './ZoomBar.tsx';

const HOUR_MS = 3_600_000;
const SIDE_PX = 12;
const WHEEL_FACTOR = 1.0018;
const MARK_REACH_PX = 7;
const DRAG_FROM_PX = 3;
/** Room the zoom buttons take beside the readout; on a narrow ribbon the readout has a line of its own. */
const ZOOM_BAR_PX = 350;
const NARROW_PX = 840;
const READOUT_SIDES_PX = 24;

type Props = {
  readonly view: LineView;
  /** Given, the ribbon is a scrubber: it calls this with the moment wanted, ms into the shift. */
  readonly onSeek?: (ms: number) => void;
  /** The moment a replay stands at, ms into the shift. */
  readonly at?: number;
};

export const ShiftRibbon = ({ view, onSeek, at }: Props) => {
  const { shift, ribbon, lots } = view;
  const wholeMs = Math.max(shift.hours * HOUR_MS, shift.atMs, 1);
  const sight = useWindow(at ?? shift.atMs, wholeMs);
  const picture = useRef<HTMLDivElement>(null);
  const size = useSize(picture);
  const [hoverMs, setHoverMs] = useState<number | null>(null);
  const [cursorMs, setCursorMs] = useState<number | null>(null);
  const drag = useRef<{ x: number; moved: boolean } | null>(null);
  const helpId = useId();

  const scale: Scale = {
    fromMs: sight.fromMs,
    spanMs: sight.spanMs,
    widthPx: Math.max(1, size.w - 2 * SIDE_PX),
  };
  const brackets = useMemo(
    () => bracketsOf(lots, ribbon.blocks, shift.atMs),
    [lots, ribbon.blocks, shift.atMs],
  );
  const canSeek = onSeek !== undefined;
  const standsMs = canSeek ? (at ?? shift.atMs) : (cursorMs ?? shift.atMs);
  const readMs = hoverMs ?? standsMs;
  const reachMs = (MARK_REACH_PX / scale.widthPx) * scale.spanMs;
  const readout = readoutAt(view, brackets, readMs, reachMs);

  const isNarrow = size.w < NARROW_PX;
  const said = fitReadout(readout, size.w - (isNarrow ? READOUT_SIDES_PX : ZOOM_BAR_PX));

  const latest = useRef({ scale, sight });
  latest.current = { scale, sight };
  useEffect(() => {
    const element = picture.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const now = latest.current;
      const x = event.clientX - element.getBoundingClientRect().left - SIDE_PX;
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY))
        now.sight.pan(((event.deltaX || event.deltaY) / now.scale.widthPx) * now.scale.spanMs);
      else now.sight.zoom(msAt(now.scale, x), WHEEL_FACTOR ** event.deltaY);
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, []);

  const msOf = (event: PointerEvent<HTMLElement>) => {
    const x = event.clientX - event.currentTarget.getBoundingClientRect().left - SIDE_PX;
    return Math.min(wholeMs, Math.max(0, msAt(scale, x)));
  };
  const seek = (ms: number) => {
    const bound = Math.round(Math.min(shift.atMs, Math.max(0, ms)));
    if (onSeek !== undefined) onSeek(bound);
    else setCursorMs(bound);
    sight.bringInSight(bound);
  };

  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, moved: false };
    if (canSeek) onSeek(Math.round(Math.min(shift.atMs, msOf(event))));
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    setHoverMs(msOf(event));
    const held = drag.current;
    if (held === null) return;
    if (canSeek) onSeek(Math.round(Math.min(shift.atMs, msOf(event))));
    else if (held.moved || Math.abs(event.clientX - held.x) >= DRAG_FROM_PX) {
      if (!sight.isWhole) sight.pan(((held.x - event.clientX) / scale.widthPx) * scale.spanMs);
      drag.current = { x: event.clientX, moved: true };
    }
  };
  const onPointerUp = (event: PointerEvent<HTMLElement>) => {
    if (!canSeek && drag.current?.moved === false) setCursorMs(Math.min(shift.atMs, msOf(event)));
    drag.current = null;
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const factor = ZOOM_KEYS[event.key];
    const toMs = canSeek
      ? keyedMs(event.key, event.shiftKey, standsMs, shift.atMs)
      : keyedBlockMs(event.key, ribbon.blocks, standsMs, shift.atMs);
    if (factor !== undefined) sight.zoom(standsMs, factor);
    else if (event.key === 'Escape') setCursorMs(null);
    else if (toMs !== null) seek(toMs);
    else return;
    if (event.key === 'End') {
      sight.follow();
      setCursorMs(null);
    }
    event.preventDefault();
  };

  const marked = hoverMs ?? (canSeek ? null : cursorMs);
  return (
    <div className={isNarrow ? 'rb-frame rb-narrow' : 'rb-frame'}>
      <div className="rb-head">
        <p className="rb-readout">
          <b>{readout.time}</b>
          {said.map((part, index) => (
            <span key={part.kind} className={part.kind === 'lot' ? 'rb-soft' : undefined}>
              {index === 0 ? ' ' : SEPARATOR}
              {part.text}
            </span>
          ))}
        </p>
        <ZoomBar sight={sight} hasReplay={canSeek} />
      </div>
      <div
        ref={picture}
        className={canSeek ? 'rb-picture rb-seek' : 'rb-picture'}
        role="slider"
        tabIndex={0}
        aria-label={canSeek ? 'Moment of the replay' : 'Reading line on the shift ribbon'}
        aria-describedby={helpId}
        aria-valuemin={0}
        aria-valuemax={Math.round(shift.atMs / 1000)}
        aria-valuenow={Math.round(Math.min(standsMs, shift.atMs) / 1000)}
        aria-valuetext={[readout.time, readout.block, readout.lot, readout.marks].filter(Boolean).join(', ')}
        onKeyDown={onKeyDown}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={() => {
          drag.current = null;
        }}
        onPointerLeave={() => setHoverMs(null)}
      >
        {size.w > 2 * SIDE_PX && size.h > 0 && (
          <RibbonPicture
            view={view}
            brackets={brackets}
            scale={scale}
            heightPx={size.h}
            sidePx={SIDE_PX}
            at={canSeek ? standsMs : null}
            cursorMs={marked}
          />
        )}
      </div>
      <Legend blocks={ribbon.blocks} marks={ribbon.marks} />
      <p id={helpId} className="rb-hidden">
        {canSeek
          ? 'Arrow keys move by one second, with Shift by ten, Page Up and Page Down by a minute.'
          : 'Arrow keys go from step to step, Page Up and Page Down by a minute, End returns to now.'}{' '}
        Plus and minus zoom.
      </p>
    </div>
  );
};
