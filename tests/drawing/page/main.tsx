/** Renders one of the three parts at a given size: ?part=drawing&view=idle&w=728&h=594. */
import { lazy, StrictMode, Suspense, useEffect, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { PlantDrawing } from '../../../client/drawing/PlantDrawing.tsx';
import { ShiftRibbon } from '../../../client/ribbon/ShiftRibbon.tsx';
import { batchBlocks, views } from '../fixture.ts';
import './page.css';

const ChartPage = lazy(async () => ({
  default: (await import('../../../client/charts/ChartPage.tsx')).ChartPage,
}));

const asked = new URLSearchParams(location.search);
const view = views[(asked.get('view') ?? 'idle') as keyof typeof views] ?? views.idle;
const part = asked.get('part') ?? 'drawing';
const many = [
  ...batchBlocks(0, 1, 166, [
    ['charge', 40],
    ['wet', 30],
    ['binder', 12],
    ['mix', 40],
    ['look', 12],
    ['discharge', 20],
  ]),
];
const manyEndMs = (many.at(-1)?.toMs ?? 0) + 1000;
const charts = JSON.parse(asked.get('charts') ?? '[]');

const Scrubbed = () => {
  const [at, setAt] = useState(view.shift.atMs / 2);
  return <ShiftRibbon view={view} at={at} onSeek={setAt} />;
};

/** A thousand blocks, and everything that can change changing ten times a second. */
const Busy = () => {
  const [n, setN] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => setN((old) => old + 1), 100);
    return () => clearInterval(timer);
  }, []);
  const busy = {
    ...view,
    shift: { ...view.shift, atMs: manyEndMs + n * 100 },
    ribbon: { blocks: many, marks: view.ribbon.marks },
    plant: {
      ...view.plant,
      readings: { ...view.plant.readings, hopperKg: n % 900, mixC: n / 10, vapourLelPct: (n % 80) / 10 },
    },
  };
  return (
    <>
      <div style={{ height: '594px' }}>
        <PlantDrawing view={busy} />
      </div>
      <div style={{ height: '190px' }}>
        <ShiftRibbon view={busy} />
      </div>
    </>
  );
};

const Part = () => {
  if (part === 'busy') return <Busy />;
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
    <div
      className="box"
      style={{ width: `${asked.get('w') ?? 728}px`, height: `${asked.get('h') ?? 594}px` }}
    >
      <Part />
    </div>
  </StrictMode>,
);
