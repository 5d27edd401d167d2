/** The pages there are. */
import { Link, useLocation } from 'wouter';
import { SESSION } from '../live/session.ts';

export const PAGES = [
  { path: '/', name: 'Line' },
  { path: '/lots', name: 'Lots' },
  { path: '/interlock', name: 'Interlock' },
  { path: '/records', name: 'Records' },
  { path: '/charts', name: 'Charts' },
  { path: '/training', name: 'Training' },
] as const;

/** The record, its reports and training itself belong to the plant, not to the line of a drill. */
const IN_A_DRILL: readonly string[] = ['Line', 'Lots', 'Charts', 'Interlock'];
const SHOWN = PAGES.filter(({ name }) => SESSION === null || IN_A_DRILL.includes(name));

export function Nav() {
  const [path] = useLocation();
  return (
    <nav className="nav" aria-label="Pages">
      {SHOWN.map((page) => (
        <Link
          key={page.path}
          href={page.path}
          aria-current={
            path === page.path || (page.path !== '/' && path.startsWith(`${page.path}/`)) ? 'page' : undefined
          }
        >
          {page.name}
        </Link>
      ))}
    </nav>
  );
}
