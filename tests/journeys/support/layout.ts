/** What an eye would object to, found by measuring: sideways scrolling, cut or overlapping text, targets too small. */
import type { Page } from 'playwright-core';

/** The least side of something to be touched, CSS px (WCAG 2.2, 2.5.5 Target Size (Enhanced)). */
const TOUCH_PX = 44;

/** One line for each thing found wrong on the page as it stands; empty when all is well. */
export const layoutFaults = (page: Page, touch: boolean): Promise<string[]> =>
  page.evaluate(
    ({ touch, touchPx }) => {
      const faults: string[] = [];
      const root = document.documentElement;
      if (root.scrollWidth > root.clientWidth)
        faults.push(`the page scrolls sideways: ${root.scrollWidth} px in ${root.clientWidth} px`);

      type Box = { left: number; right: number; top: number; bottom: number };
      type Piece = { element: Element; words: string; box: Box };

      const named = (element: Element): string => {
        const words = (element.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 40);
        return `<${element.tagName.toLowerCase()} class="${element.getAttribute('class') ?? ''}"> “${words}”`;
      };
      /** An open dialog hides the rest of the page from people; then only the dialog counts. */
      const dialogs = [...document.querySelectorAll('dialog[open], [role="dialog"], [role="alertdialog"]')];
      const scope: Element = dialogs.at(-1) ?? document.body;

      const isForScreenReaderOnly = (element: Element): boolean => {
        for (let at: Element | null = element; at !== null; at = at.parentElement) {
          const style = getComputedStyle(at);
          const box = at.getBoundingClientRect();
          const cut = style.clipPath !== 'none' || (style.clip !== 'auto' && style.clip !== '');
          if (style.position === 'absolute' && (cut || box.width <= 1 || box.height <= 1)) return true;
        }
        return false;
      };
      const isSeen = (element: Element): boolean =>
        element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) &&
        !isForScreenReaderOnly(element);

      /** The nearest ancestor that scrolls in that direction on purpose. */
      const scrollerOf = (element: Element): Element | null => {
        for (let at: Element | null = element; at !== null && at !== document.body; at = at.parentElement) {
          const { overflowX, overflowY } = getComputedStyle(at);
          if (/auto|scroll/.test(overflowX + overflowY)) return at;
        }
        return null;
      };

      /** What is left of a box inside every ancestor that cuts; null when nothing is. */
      const cutters = (element: Element): Element[] => {
        const found: Element[] = [];
        for (let at: Element | null = element; at !== null && at !== document.body; at = at.parentElement) {
          const { overflowX, overflowY } = getComputedStyle(at);
          if (overflowX !== 'visible' || overflowY !== 'visible') found.push(at);
        }
        return found;
      };

      const pieces: Piece[] = [];
      const walker = document.createTreeWalker(scope, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const words = (node.textContent ?? '').trim();
        const element = node.parentElement;
        if (words === '' || element === null || !isSeen(element)) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const { left, right, top, bottom } of range.getClientRects())
          if (right - left > 1 && bottom - top > 1)
            pieces.push({ element, words, box: { left, right, top, bottom } });
      }

      for (const { element, words, box } of pieces) {
        const scroller = scrollerOf(element);
        for (const cutter of cutters(element)) {
          if (cutter === scroller || (scroller !== null && cutter.contains(scroller))) break;
          const edge = cutter.getBoundingClientRect();
          const cut = Math.max(
            edge.left - box.left,
            box.right - edge.right,
            edge.top - box.top,
            box.bottom - edge.bottom,
          );
          // Line boxes stand a little above and below the letters; 4 px of that cuts nothing that is drawn.
          const across = Math.max(edge.left - box.left, box.right - edge.right);
          if (across > 1 || cut > 4)
            faults.push(`cut by ${cut.toFixed(0)} px: “${words.slice(0, 60)}” in ${named(cutter)}`);
        }
        if (scroller === null && (box.left < -1 || box.right > root.clientWidth + 1))
          faults.push(`beside the screen: “${words.slice(0, 60)}”`);
        const style = getComputedStyle(element);
        if (style.textOverflow === 'ellipsis' && element.scrollWidth > element.clientWidth + 1)
          faults.push(`cut with an ellipsis: “${words.slice(0, 60)}”`);
      }

      // Letters fill about the middle two thirds of a line box: touching boxes of neighbouring lines are no overlap.
      const inner = ({ left, right, top, bottom }: Box): Box => {
        const inset = (bottom - top) * 0.2;
        return { left: left + 1, right: right - 1, top: top + inset, bottom: bottom - inset };
      };
      /** Under a sheet of something opaque at that point, a drawer say: there and not to be read. */
      const isCoveredAt = (x: number, y: number, element: Element): boolean => {
        let at = document.elementFromPoint(x, y);
        for (; at !== null && !at.contains(element); at = at.parentElement)
          if (!element.contains(at) && /^rgb\(/.test(getComputedStyle(at).backgroundColor)) return true;
        return false;
      };
      /** The part of a box that its scroller lets be seen. */
      const seenOf = (box: Box, element: Element): Box => {
        const scroller = scrollerOf(element)?.getBoundingClientRect();
        if (scroller === undefined) return box;
        return {
          left: Math.max(box.left, scroller.left),
          right: Math.min(box.right, scroller.right),
          top: Math.max(box.top, scroller.top),
          bottom: Math.min(box.bottom, scroller.bottom),
        };
      };
      const shown = pieces
        .map((piece) => ({ ...piece, box: seenOf(inner(piece.box), piece.element) }))
        .filter(({ box }) => box.left < box.right && box.top < box.bottom);
      shown.sort((a, b) => a.box.top - b.box.top);
      shown.forEach((one, i) => {
        for (const other of shown.slice(i + 1)) {
          if (other.box.top >= one.box.bottom) break;
          const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
          const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
          if (across <= 1 || down <= 1 || one.element === other.element) continue;
          const x = Math.max(one.box.left, other.box.left) + across / 2;
          const y = Math.max(one.box.top, other.box.top) + down / 2;
          if (isCoveredAt(x, y, one.element) || isCoveredAt(x, y, other.element)) continue;
          faults.push(`text over text: “${one.words.slice(0, 40)}” and “${other.words.slice(0, 40)}”`);
        }
      });

      if (touch) {
        const targets = scope.querySelectorAll(
          'button, a[href], summary, select, input, textarea, [role="button"], [role="tab"], [role="radio"], [role="switch"], [role="slider"]',
        );
        for (const target of targets) {
          const shownAs = isForScreenReaderOnly(target) ? target.closest('label') : target;
          if (shownAs === null || !isSeen(shownAs)) continue;
          // A link inside a sentence is as high as its line, as WCAG allows.
          if (target.tagName === 'A' && target.closest('p, li p, td') !== null) continue;
          const { width, height } = shownAs.getBoundingClientRect();
          if (width < touchPx - 0.5 || height < touchPx - 0.5)
            faults.push(
              `too small to touch (${width.toFixed(0)} × ${height.toFixed(0)} px): ${named(shownAs)}`,
            );
        }
      }
      return [...new Set(faults)];
    },
    { touch, touchPx: TOUCH_PX },
  );
