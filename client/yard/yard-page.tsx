/** The Yard page: from patch list to mix, materials, bays, loads and back, a tab each. */
import { type ComponentType, lazy, Suspense } from 'react';
import { Link, Redirect, useLocation } from 'wouter';
import './yard.css';

/** A tab is the component `Tab` of client/yard/<name>/tab.tsx; it is fetched when it is first opened. */
const FOUND = import.meta.glob<{ Tab: ComponentType }>('./*/tab.tsx');

const NAMES = [
  ['patches', 'Patches'],
  ['mixes', 'Mixes'],
  ['schedule', 'Schedule'],
  ['materials', 'Materials'],
  ['bays', 'Bays'],
  ['loads', 'Loads'],
  ['trace', 'Trace'],
] as const;

const TABS = NAMES.flatMap(([name, words]) => {
  const load = FOUND[`./${name}/tab.tsx`];
  return load === undefined
    ? []
    : [{ path: `/yard/${name}`, words, Tab: lazy(async () => ({ default: (await load()).Tab })) }];
});

export function YardPage() {
  const [path] = useLocation();
  const open = TABS.find((tab) => path === tab.path || path.startsWith(`${tab.path}/`));
  if (open === undefined) return <Redirect to={TABS[0]?.path ?? '/'} replace />;
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
