/** Where the guide's card goes: beside what it points at, inside the window, never over it when there is room. */
export type Box = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
};
export type Side = 'right' | 'left' | 'below' | 'above' | 'over';
export type Placed = {
  readonly left: number;
  readonly top: number;
  readonly side: Side;
  readonly arrowPx: number;
};

const GAP_PX = 18;
const EDGE_PX = 10;
const HEADER_PX = 110;
const ARROW_FROM_CORNER_PX = 18;

const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

export function placeCard(
  target: Box,
  card: { readonly width: number; readonly height: number },
  window: { readonly width: number; readonly height: number },
): Placed {
  const room = {
    below: window.height - (target.top + target.height) - GAP_PX - EDGE_PX,
    above: target.top - GAP_PX - EDGE_PX,
    right: window.width - (target.left + target.width) - GAP_PX - EDGE_PX,
    left: target.left - GAP_PX - EDGE_PX,
  };
  // A header's buttons stand side by side: there the card hangs below, elsewhere it stands beside its target.
  const order: readonly Exclude<Side, 'over'>[] =
    target.top < HEADER_PX ? ['below', 'left', 'right', 'above'] : ['right', 'left', 'below', 'above'];
  const fits = (side: Exclude<Side, 'over'>): boolean =>
    room[side] >= (side === 'below' || side === 'above' ? card.height : card.width);
  const side: Side = order.find(fits) ?? 'over';
  const maxLeft = window.width - card.width - EDGE_PX;
  const maxTop = window.height - card.height - EDGE_PX;
  const midX = target.left + target.width / 2;
  const midY = target.top + target.height / 2;
  if (side === 'below' || side === 'above') {
    const left = within(midX - card.width / 2, EDGE_PX, maxLeft);
    const top = side === 'below' ? target.top + target.height + GAP_PX : target.top - GAP_PX - card.height;
    return {
      left,
      top,
      side,
      arrowPx: within(midX - left, ARROW_FROM_CORNER_PX, card.width - ARROW_FROM_CORNER_PX),
    };
  }
  if (side === 'right' || side === 'left') {
    const top = within(midY - card.height / 2, EDGE_PX, maxTop);
    const left = side === 'right' ? target.left + target.width + GAP_PX : target.left - GAP_PX - card.width;
    return {
      left,
      top,
      side,
      arrowPx: within(midY - top, ARROW_FROM_CORNER_PX, card.height - ARROW_FROM_CORNER_PX),
    };
  }
  return { left: maxLeft, top: maxTop, side, arrowPx: 0 };
}
