/** The parts of the Lab page, named the same way on each of them. */
import { Link, useLocation } from 'wouter';
import { LAB_TABS } from './tab-names.ts';
import './lab.css';

export function LabTabs() {
  const [path] = useLocation();
  return (
    <nav className="part-nav no-print" aria-label="Parts of the lab page">
      {LAB_TABS.map((tab) => (
        <Link
          key={tab.path}
          href={tab.path}
          aria-current={path === tab.path || path.startsWith(`${tab.path}/`) ? 'page' : undefined}
        >
          {tab.words}
        </Link>
      ))}
    </nav>
  );
}
