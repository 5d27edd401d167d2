/** Pan and zoom of a picture by drag, wheel, pinch, keys and buttons. */
import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useCallback,
  useEffect,
  useRef,
  useState,
} from 'react';

export type Pose = { readonly x: number; readonly y: number; readonly k: number };

const LEAST_K = 0.15;
const MOST_K = 3;
const WHEEL_FACTOR = 1.0016;
const KEY_PX = 60;
/** Kept free around a picture shown whole. */
const MARGIN_PX = 10;
const KEY_FACTOR = 1.25;
const KEY_PANS: { readonly [key: string]: readonly [number, number] } = {
  ArrowLeft: [KEY_PX, 0],
  ArrowRight: [-KEY_PX, 0],
  ArrowUp: [0, KEY_PX],
  ArrowDown: [0, -KEY_PX],
};
const KEY_FACTORS: { readonly [key: string]: number } = {
  '+': KEY_FACTOR,
  '=': KEY_FACTOR,
  '-': 1 / KEY_FACTOR,
};

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
  const k = Math.min(mostK, (frame.w - 2 * MARGIN_PX) / picture.w, (frame.h - 2 * MARGIN_PX) / picture.h);
  return { k, x: (frame.w - picture.w * k) / 2, y: (frame.h - picture.h * k) / 2 };
};

/** Shows a box in the middle of the window at a size that can be read. */
export const centrePose = (
  box: { readonly x: number; readonly y: number; readonly w: number; readonly h: number },
  picture: { readonly w: number; readonly h: number },
  frame: { readonly w: number; readonly h: number },
  k: number,
): Pose => {
  /** No more empty margin than needed: the picture fills the window, or stands in its middle. */
  const along = (mid: number, whole: number, room: number) =>
    whole * k <= room ? (room - whole * k) / 2 : Math.min(0, Math.max(room - whole * k, room / 2 - mid * k));
  return {
    k,
    x: along(box.x + box.w / 2, picture.w, frame.w),
    y: along(box.y + box.h / 2, picture.h, frame.h),
  };
};

/** True when a box lies wholly inside the window. */
export const isInSight = (
  pose: Pose,
  box: { readonly x: number; readonly y: number; readonly w: number; readonly h: number },
  frame: { readonly w: number; readonly h: number },
): boolean => {
  const left = pose.x + box.x * pose.k;
  const top = pose.y + box.y * pose.k;
  return left >= 0 && top >= 0 && left + box.w * pose.k <= frame.w && top + box.h * pose.k <= frame.h;
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
      setPose((old) => ({
        ...old,
        x: old.x + event.clientX - before.x,
        y: old.y + event.clientY - before.y,
      }));
  };
  const onPointerUp = (event: PointerEvent<HTMLElement>) => {
    pointers.current.delete(event.pointerId);
  };

  const onKeyDown = (showWhole: () => void) => (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const pan = KEY_PANS[event.key];
    const factor = KEY_FACTORS[event.key];
    if (pan !== undefined) setPose((old) => ({ ...old, x: old.x + pan[0], y: old.y + pan[1] }));
    else if (factor !== undefined) zoom(factor);
    else if (event.key === '0') showWhole();
    else return;
    event.preventDefault();
  };

  return { pose, setPose, zoom, onPointerDown, onPointerMove, onPointerUp, onKeyDown };
};
