/** The pages there are. */
import { Link, useLocation } from 'wouter';
import { SESSION } from '../live/session.ts';

export const PAGES = [
  { path: '/', name: 'Line' },
  /** The lab begins with the lots of this shift; in a drill there is no lab, only these. */
  { path: '/lots', name: SESSION === null ? 'Lab' : 'Lots' },
  { path: '/yard', name: 'Yard' },
  { path: '/interlock', name: 'Interlock' },
  { path: '/records', name: 'Records' },
  { path: '/charts', name: 'Charts' },
  { path: '/training', name: 'Training' },
] as const;

/** Whether the page shown belongs to this entry of the navigation. */
export const belongsTo = (page: { readonly path: string }, path: string): boolean =>
  path === page.path ||
  (page.path !== '/' && path.startsWith(`${page.path}/`)) ||
  (page.path === '/lots' && (path === '/lab' || path.startsWith('/lab/')));

/** The record, its reports and training itself belong to the plant, not to the line of a drill. */
const IN_A_DRILL: readonly string[] = ['Line', 'Lots', 'Charts', 'Interlock'];
const SHOWN = PAGES.filter(({ name }) => SESSION === null || IN_A_DRILL.includes(name));

export function Nav() {
  const [path] = useLocation();
  return (
    <nav className="nav" aria-label="Pages">
      {SHOWN.map((page) => (
        <Link key={page.path} href={page.path} aria-current={belongsTo(page, path) ? 'page' : undefined}>
          {page.name}
        </Link>
      ))}
    </nav>
  );
}
