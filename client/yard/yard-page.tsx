/** The Yard page: from patch list to mix, materials, bays, loads and back, a tab each. */
import { type ComponentType, lazy, Suspense } from 'react';
import { Link, Redirect, useLocation } from 'wouter';
import { NOW } from './now.tsx';
import { YARD_TABS, type YardPath } from './tabs.ts';
import './yard.css';

/** Each tab is fetched when it is first opened. */
const TAB: { readonly [P in YardPath]: ComponentType } = {
  '/yard/patches': lazy(async () => ({ default: (await import('./patches/tab.tsx')).Tab })),
  '/yard/mixes': lazy(async () => ({ default: (await import('./mixes/tab.tsx')).Tab })),
  '/yard/schedule': lazy(async () => ({ default: (await import('./schedule/tab.tsx')).Tab })),
  '/yard/materials': lazy(async () => ({ default: (await import('./materials/tab.tsx')).Tab })),
  '/yard/bays': lazy(async () => ({ default: (await import('./bays/tab.tsx')).Tab })),
  '/yard/loads': lazy(async () => ({ default: (await import('./loads/tab.tsx')).Tab })),
  '/yard/trace': lazy(async () => ({ default: (await import('./trace/tab.tsx')).Tab })),
};

export function YardPage() {
  const [path] = useLocation();
  const open = YARD_TABS.find((tab) => path === tab.path || path.startsWith(`${tab.path}/`));
  if (open === undefined) return <Redirect to={YARD_TABS[0].path} replace />;
  const Now = NOW[open.path];
  const Tab = TAB[open.path];
  return (
    <div className="page yard">
      <div className="page-head no-print">
        <h1>Yard</h1>
        <Now />
      </div>
      <nav className="part-nav no-print" aria-label="Parts of the yard">
        {YARD_TABS.map((tab) => (
          <Link key={tab.path} href={tab.path} aria-current={tab === open ? 'page' : undefined}>
            {tab.words}
          </Link>
        ))}
      </nav>
      <Suspense fallback={<p className="card empty">Opening {open.words.toLowerCase()}…</p>}>
        <Tab />
      </Suspense>
    </div>
  );
}
