/** The coach for a newcomer's first batch: an outline around the real control and a card with an arrow beside it. */
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { holdsControls } from '../live/may.ts';
import { say } from '../live/said.ts';
import { useLive, useStore } from '../live/store.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { closeGuide, guideStore } from './guide-state.ts';
import { GUIDE, GUIDE_ORDER, type GuideStepId, guidePlace, guideStep } from './guide-steps.ts';
import { type Box, type Placed, placeCard } from './place.ts';

const LOOK_AGAIN_MS = 250;

const findTarget = (step: GuideStepId): Element | null => {
  for (const selector of GUIDE[step].at) {
    const found = document.querySelector(selector);
    if (found !== null) return found;
  }
  return null;
};

const boxOf = (element: Element): Box => {
  const { left, top, width, height } = element.getBoundingClientRect();
  return { left, top, width, height };
};

/** The line of caution and the emergency stop stay clear: the card lives above them. */
const seenHeight = (): number =>
  Math.min(
    window.innerHeight,
    document.querySelector('footer.bottom')?.getBoundingClientRect().top ?? window.innerHeight,
  );

type Spot = { readonly target: Box | null; readonly card: Placed };

/** Follows the target as the page moves; a timer, since nothing tells when another part of the page shifts it. */
function useSpot(step: GuideStepId, card: React.RefObject<HTMLElement | null>): Spot | null {
  const [spot, setSpot] = useState<Spot | null>(null);
  useLayoutEffect(() => {
    const look = () => {
      const element = findTarget(step);
      const size = card.current;
      if (size === null) return;
      const target = element === null ? null : boxOf(element);
      const whole = { width: document.documentElement.clientWidth, height: seenHeight() };
      const placed = placeCard(
        target ?? { left: whole.width / 2, top: whole.height - 8, width: 0, height: 0 },
        { width: size.offsetWidth, height: size.offsetHeight },
        whole,
      );
      setSpot((last) =>
        JSON.stringify(last) === JSON.stringify({ target, card: placed }) ? last : { target, card: placed },
      );
    };
    findTarget(step)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    look();
    const timer = setInterval(look, LOOK_AGAIN_MS);
    window.addEventListener('resize', look);
    window.addEventListener('scroll', look, true);
    return () => {
      clearInterval(timer);
      window.removeEventListener('resize', look);
      window.removeEventListener('scroll', look, true);
    };
  }, [step, card]);
  return spot;
}

function Coach({ step }: { readonly step: GuideStepId }) {
  const card = useRef<HTMLElement>(null);
  const spot = useSpot(step, card);
  const { title, words } = GUIDE[step];
  useEffect(() => say(`Guide: ${title}. ${words}`), [title, words]);
  const n = guidePlace(step);
  const target = spot?.target ?? null;
  return (
    <>
      {target !== null && (
        <div
          className="guide-ring"
          aria-hidden="true"
          style={{
            left: target.left - 6,
            top: target.top - 6,
            width: target.width + 12,
            height: target.height + 12,
          }}
        />
      )}
      <aside
        ref={card}
        className={`guide-card ${spot?.card.side ?? 'over'}`}
        aria-label="Guide to the first batch"
        style={spot === null ? { left: 10, top: 70 } : { left: spot.card.left, top: spot.card.top }}
      >
        {spot !== null && spot.card.side !== 'over' && (
          <span
            className="guide-arrow"
            aria-hidden="true"
            style={
              spot.card.side === 'below' || spot.card.side === 'above'
                ? { left: spot.card.arrowPx }
                : { top: spot.card.arrowPx }
            }
          />
        )}
        <p className="guide-count">
          First batch · {n} of {GUIDE_ORDER.length}
        </p>
        <h2>{title}</h2>
        <p>{words}</p>
        <button type="button" className="button guide-close" onClick={closeGuide}>
          {step === 'done' ? 'Close' : 'Close the guide'}
        </button>
      </aside>
    </>
  );
}

export function Guide() {
  const { open, ownBatch } = useStore(guideStore, (state) => state);
  const view = useLive((live) => live.view);
  const at = useStandpoint();
  // The outlines of the guide lie under a modal dialog, which is its own guide.
  // A tripped interlock is read before all else: the guide comes back when the trip is reset.
  if (!open || view === null || view.shift.ended || view.interlock.tripped) return null;
  return <Coach step={guideStep({ me: at.me, mine: holdsControls(at), view, ownBatch })} />;
}
