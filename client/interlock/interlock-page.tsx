/** The Interlock page, loaded only when it is looked at. */
import { lazy, Suspense } from 'react';

const InterlockView = lazy(async () => ({ default: (await import('./InterlockView.tsx')).InterlockView }));

export function InterlockPage() {
  return (
    <Suspense fallback={<p className="card empty">Fetching the interlock…</p>}>
      <InterlockView />
    </Suspense>
  );
}
