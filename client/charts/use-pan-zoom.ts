/** Pan and zoom of a picture by drag, wheel, pinch, keys and buttons. */
import { type KeyboardEvent, type PointerEvent, type RefObject, useCallback, useEffect, useRef, useState } from 'react';

export type Pose = { readonly x: number; readonly y: number; readonly k: number };

const LEAST_K = 0.15;
const MOST_K = 3;
const WHEEL_FACTOR = 1.0016;
const KEY_PX = 60;
const KEY_FACTOR = 1.25;

/** Scales about a point of the window, which keeps its place. */
export const scaleAbout = (pose: Pose, x: number, y: number, factor: number): Pose => {
  const k = Math.min(MOST_K, Math.max(LEAST_K, pose.k * factor));
  return { k, x: x - ((x - pose.x) / pose.k) * k, y: y - ((y - pose.y) / pose.k) * k };
};

/** Fits a picture into a window, centred, never larger than `mostK` times its size. */
export const fitPose = (
  picture: { readonly w: number; readonly h: number },
  frame: { readonly w: number; readonly h: number },
  mostK = 1.15,
): Pose => {
  const k = Math.min(mostK, frame.w / picture.w, frame.h / picture.h);
  return { k, x: (frame.w - picture.w * k) / 2, y: (frame.h - picture.h * k) / 2 };
};

type Pointers = Map<number, { readonly x: number; readonly y: number }>;

const spreadOf = (pointers: Pointers) => {
  const [a, b] = [...pointers.values()];
  if (a === undefined || b === undefined) return null;
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y) };
};

export const usePanZoom = (frame: RefObject<HTMLElement | null>) => {
  const [pose, setPose] = useState<Pose>({ x: 0, y: 0, k: 1 });
  const pointers = useRef<Pointers>(new Map());

  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      setPose((old) =>
        scaleAbout(old, event.clientX - box.left, event.clientY - box.top, WHEEL_FACTOR ** -event.deltaY),
      );
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [frame]);

  const zoom = useCallback(
    (factor: number) => {
      const box = frame.current?.getBoundingClientRect();
      setPose((old) => scaleAbout(old, (box?.width ?? 0) / 2, (box?.height ?? 0) / 2, factor));
    },
    [frame],
  );

  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    pointers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    const before = pointers.current.get(event.pointerId);
    if (before === undefined) return;
    const pinchBefore = spreadOf(pointers.current);
    pointers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const pinch = spreadOf(pointers.current);
    const box = event.currentTarget.getBoundingClientRect();
    if (pinch !== null && pinchBefore !== null && pinchBefore.apart > 0) {
      const factor = pinch.apart / pinchBefore.apart;
      setPose((old) => {
        const scaled = scaleAbout(old, pinchBefore.x - box.left, pinchBefore.y - box.top, factor);
        return { ...scaled, x: scaled.x + pinch.x - pinchBefore.x, y: scaled.y + pinch.y - pinchBefore.y };
      });
    } else
      setPose((old) => ({ ...old, x: old.x + event.clientX - before.x, y: old.y + event.clientY - before.y }));
  };
  const onPointerUp = (event: PointerEvent<HTMLElement>) => {
    pointers.current.delete(event.pointerId);
  };

  const onKeyDown = (fit: () => void) => (event: KeyboardEvent) => {
    const by = (x: number, y: number) => setPose((old) => ({ ...old, x: old.x + x, y: old.y + y }));
    const moves: { readonly [key: string]: () => void } = {
      ArrowLeft: () => by(KEY_PX, 0),
      ArrowRight: () => by(-KEY_PX, 0),
      ArrowUp: () => by(0, KEY_PX),
      ArrowDown: () => by(0, -KEY_PX),
      '+': () => zoom(KEY_FACTOR),
      '=': () => zoom(KEY_FACTOR),
      '-': () => zoom(1 / KEY_FACTOR),
      '0': fit,
    };
    const move = moves[event.key];
    if (move === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    move();
  };

  return { pose, setPose, zoom, onPointerDown, onPointerMove, onPointerUp, onKeyDown };
};
