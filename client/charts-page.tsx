/** The Charts page: the state charts as they are being run, loaded only when they are looked at. */
import { lazy, Suspense } from 'react';
import type { ChartView } from '../machines/line/view.types.ts';
import { useLive } from './live/store.ts';

// The layout library of the charts is larger than the rest of the console together.
const ChartPage = lazy(async () => ({ default: (await import('./charts/ChartPage.tsx')).ChartPage }));

const NONE: readonly ChartView[] = [];

export function ChartsPage() {
  const charts = useLive((live) => live.view?.charts ?? NONE);
  return (
    <div className="page wide">
      <div className="page-head">
        <h1>Charts</h1>
        <p className="soft">What the line decides by, with the state it is in lit.</p>
      </div>
      <Suspense fallback={<p className="card empty">Drawing the charts…</p>}>
        <ChartPage charts={charts} />
      </Suspense>
    </div>
  );
}
