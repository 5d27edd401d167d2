/** The console, or in its place the replay of a record: two frames that are never mixed. */
import { lazy, Suspense } from 'react';
import { useLocation } from 'wouter';
import { App } from './app.tsx';

// Replay brings the charts' own rules along; the console itself never runs them.
const ReplayRoute = lazy(async () => ({ default: (await import('./replay/replay-route.tsx')).ReplayRoute }));

export function Root() {
  const [path] = useLocation();
  if (path !== '/replay') return <App />;
  return (
    <Suspense fallback={<p className="card empty">Opening the replay…</p>}>
      <ReplayRoute />
    </Suspense>
  );
}
