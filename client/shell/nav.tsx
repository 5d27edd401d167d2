/** The pages there are. */
import { Link, useLocation } from 'wouter';

export const PAGES = [
  { path: '/', name: 'Line' },
  { path: '/lots', name: 'Lots' },
  { path: '/records', name: 'Records' },
  { path: '/charts', name: 'Charts' },
] as const;

export function Nav() {
  const [path] = useLocation();
  return (
    <nav className="nav" aria-label="Pages">
      {PAGES.map((page) => (
        <Link key={page.path} href={page.path} aria-current={path === page.path ? 'page' : undefined}>
          {page.name}
        </Link>
      ))}
    </nav>
  );
}
