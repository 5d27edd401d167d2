/** The Line page: now at the left, the plant in the middle, flame and binder at the right, the shift below. */
import { PlantDrawing } from '../drawing/PlantDrawing.tsx';
import { useLive, useSource } from '../live/store.ts';
import { ShiftRibbon } from '../ribbon/ShiftRibbon.tsx';
import { Bars } from './bars.tsx';
import { CautionsCard } from './cautions-card.tsx';
import { NowPanel } from './now-panel.tsx';
import { OpenLot } from './open-lot.tsx';
import { Permissives } from './permissives.tsx';
import { HeldCards, TripCard } from './trip-card.tsx';

function Drawing() {
  const view = useLive((live) => live.view);
  return view === null ? null : <PlantDrawing view={view} />;
}

function Ribbon() {
  const view = useLive((live) => live.view);
  const { ribbon } = useSource();
  if (ribbon !== null) return ribbon;
  return view === null ? null : <ShiftRibbon view={view} />;
}

export function LinePage() {
  return (
    <div className="line-page">
      <div className="left">
        <NowPanel />
        <Bars />
      </div>
      <section className="card plant" aria-label="The plant">
        <Drawing />
        <CautionsCard />
      </section>
      <section className="card interlock" aria-labelledby="interlock-label">
        <h2 className="label" id="interlock-label">
          Flame and binder
        </h2>
        <div className="interlock-flow">
          <TripCard />
          <HeldCards />
          <Permissives />
        </div>
        <OpenLot />
      </section>
      <section className="card ribbon" aria-labelledby="ribbon-label">
        <h2 className="hidden-words" id="ribbon-label">
          Shift ribbon
        </h2>
        <Ribbon />
      </section>
    </div>
  );
}
