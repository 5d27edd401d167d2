/** Renders one of the three parts at a given size: ?part=drawing&view=idle&w=728&h=594. */
import { lazy, StrictMode, Suspense, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { PlantDrawing } from '../../../client/drawing/PlantDrawing.tsx';
import { ShiftRibbon } from '../../../client/ribbon/ShiftRibbon.tsx';
import { views } from '../fixture.ts';
import './page.css';

const ChartPage = lazy(async () => ({ default: (await import('../../../client/charts/ChartPage.tsx')).ChartPage }));

const asked = new URLSearchParams(location.search);
const view = views[(asked.get('view') ?? 'idle') as keyof typeof views] ?? views.idle;
const part = asked.get('part') ?? 'drawing';
const charts = JSON.parse(asked.get('charts') ?? '[]');

const Scrubbed = () => {
  const [at, setAt] = useState(view.shift.atMs / 2);
  return <ShiftRibbon view={view} at={at} onSeek={setAt} />;
};

const Part = () => {
  if (part === 'ribbon') return <ShiftRibbon view={view} />;
  if (part === 'scrub') return <Scrubbed />;
  if (part === 'charts')
    return (
      <Suspense fallback="…">
        <ChartPage charts={charts} />
      </Suspense>
    );
  return <PlantDrawing view={view} />;
};

createRoot(document.getElementById('root') as HTMLElement).render(
  <StrictMode>
    <div className="box" style={{ width: `${asked.get('w') ?? 728}px`, height: `${asked.get('h') ?? 594}px` }}>
      <Part />
    </div>
  </StrictMode>,
);
