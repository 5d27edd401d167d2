/** The Yard page: from patch list to mix, materials, bays, loads and back, a tab each. */
import { type ComponentType, lazy, Suspense, useEffect } from 'react';
import { Link, Redirect, useLocation } from 'wouter';
import { ErrorBoundary } from '../shell/error-boundary.tsx';
import { NOW } from './now.tsx';
import { YARD_TABS, type YardPath } from './tabs.ts';
import './yard.css';

type Loaded = { readonly default: ComponentType };

const FETCH: { readonly [P in YardPath]: () => Promise<Loaded> } = {
  '/yard/patches': async () => ({ default: (await import('./patches/tab.tsx')).Tab }),
  '/yard/mixes': async () => ({ default: (await import('./mixes/tab.tsx')).Tab }),
  '/yard/schedule': async () => ({ default: (await import('./schedule/tab.tsx')).Tab }),
  '/yard/materials': async () => ({ default: (await import('./materials/tab.tsx')).Tab }),
  '/yard/bays': async () => ({ default: (await import('./bays/tab.tsx')).Tab }),
  '/yard/loads': async () => ({ default: (await import('./loads/tab.tsx')).Tab }),
  '/yard/trace': async () => ({ default: (await import('./trace/tab.tsx')).Tab }),
};
const fetchAll = () => Promise.allSettled(Object.values(FETCH).map((fetched) => fetched()));

const TAB: { readonly [P in YardPath]: ComponentType } = {
  '/yard/patches': lazy(FETCH['/yard/patches']),
  '/yard/mixes': lazy(FETCH['/yard/mixes']),
  '/yard/schedule': lazy(FETCH['/yard/schedule']),
  '/yard/materials': lazy(FETCH['/yard/materials']),
  '/yard/bays': lazy(FETCH['/yard/bays']),
  '/yard/loads': lazy(FETCH['/yard/loads']),
  '/yard/trace': lazy(FETCH['/yard/trace']),
};

export function YardPage() {
  const [path] = useLocation();
  const open = YARD_TABS.find((tab) => path === tab.path || path.startsWith(`${tab.path}/`));
  // The tab that is asked for comes first, the others after it: then they open also while the server is away.
  useEffect(() => void fetchAll(), []);
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
      <ErrorBoundary key={open.path}>
        <Suspense fallback={<p className="card empty">Opening {open.words.toLowerCase()}…</p>}>
          <Tab />
        </Suspense>
      </ErrorBoundary>
    </div>
  );
}
