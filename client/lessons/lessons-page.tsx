/** The lessons on vapour and heat, loaded only when they are looked at. */
import { lazy, Suspense } from 'react';

const LessonsView = lazy(async () => ({ default: (await import('./LessonsView.tsx')).LessonsView }));

export function LessonsPage({ lesson }: { readonly lesson: string }) {
  return (
    <Suspense fallback={<p className="card empty">Fetching the lesson…</p>}>
      <LessonsView lesson={lesson} />
    </Suspense>
  );
}
