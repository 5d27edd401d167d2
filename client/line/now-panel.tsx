/** The left panel: what is happening, why, for how long, and what a person can do about it. */
import { useRef } from 'react';
import { useLive } from '../live/store.ts';
import { ActionBar } from './action-bar.tsx';
import { CampaignProgress } from './campaign-progress.tsx';
import { Countdown } from './countdown.tsx';
import { isIdle } from './idle.ts';
import { NextShift } from './next-shift.tsx';
import { Orders } from './orders.tsx';
import { ShiftSum } from './shift-sum.tsx';
import { Steps } from './steps.tsx';
import { useScrolls } from './use-scrolls.ts';
import { WaitingFor } from './waiting-for.tsx';

function Words() {
  const over = useLive((live) => live.view?.now.over ?? '');
  const title = useLive((live) => live.view?.now.title ?? '');
  const instruction = useLive((live) => live.view?.now.instruction ?? '');
  return (
    <div className="now-words">
      <p className="soft">{over}</p>
      <h1 className={title.length > 46 ? 'long' : ''}>{title}</h1>
      <p>{instruction}</p>
    </div>
  );
}

export function NowPanel() {
  const idle = useLive((live) => live.view !== null && isIdle(live.view));
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  const flow = useRef<HTMLDivElement>(null);
  const scrolls = useScrolls(flow);
  return (
    <section className="card now" aria-labelledby="now-label">
      <h2 className="hidden-words" id="now-label">
        Now
      </h2>
      {/* A box that scrolls must be reachable without a pointer. */}
      <div className="now-flow" ref={flow} tabIndex={scrolls ? 0 : undefined}>
        <Words />
        <Countdown />
        <Steps />
        <CampaignProgress />
        <WaitingFor />
        {idle && <Orders />}
        {ended && <ShiftSum />}
      </div>
      {ended ? <NextShift /> : <ActionBar />}
    </section>
  );
}
