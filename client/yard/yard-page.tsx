/** The Yard page: from patch list to mix, materials, bays, loads and back, a tab each. */
import { lazy, Suspense } from 'react';
import { Link, Redirect, useLocation } from 'wouter';
import './yard.css';

/** Each tab is fetched when it is first opened. */
const TABS = [
  {
    path: '/yard/patches',
    words: 'Patches',
    Tab: lazy(async () => ({ default: (await import('./patches/tab.tsx')).Tab })),
  },
  {
    path: '/yard/mixes',
    words: 'Mixes',
    Tab: lazy(async () => ({ default: (await import('./mixes/tab.tsx')).Tab })),
  },
  {
    path: '/yard/schedule',
    words: 'Schedule',
    Tab: lazy(async () => ({ default: (await import('./schedule/tab.tsx')).Tab })),
  },
  {
    path: '/yard/materials',
    words: 'Materials',
    Tab: lazy(async () => ({ default: (await import('./materials/tab.tsx')).Tab })),
  },
  {
    path: '/yard/bays',
    words: 'Bays',
    Tab: lazy(async () => ({ default: (await import('./bays/tab.tsx')).Tab })),
  },
  {
    path: '/yard/loads',
    words: 'Loads',
    Tab: lazy(async () => ({ default: (await import('./loads/tab.tsx')).Tab })),
  },
  {
    path: '/yard/trace',
    words: 'Trace',
    Tab: lazy(async () => ({ default: (await import('./trace/tab.tsx')).Tab })),
  },
] as const;

export function YardPage() {
  const [path] = useLocation();
  const open = TABS.find((tab) => path === tab.path || path.startsWith(`${tab.path}/`));
  if (open === undefined) return <Redirect to={TABS[0].path} replace />;
  return (
    <div className="page yard">
      <div className="page-head no-print">
        <h1>Yard</h1>
        <nav className="part-nav" aria-label="Parts of the yard">
          {TABS.map((tab) => (
            <Link key={tab.path} href={tab.path} aria-current={tab === open ? 'page' : undefined}>
              {tab.words}
            </Link>
          ))}
        </nav>
      </div>
      <Suspense fallback={<p className="card soft">Opening {open.words.toLowerCase()}…</p>}>
        <open.Tab />
      </Suspense>
    </div>
  );
}
