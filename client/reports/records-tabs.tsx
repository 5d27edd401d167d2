/** The two halves of the Records page: the entries themselves, and reports made from them. */
import { Link, useLocation } from 'wouter';
import { REPORTS_PATH } from './plants-own.ts';
import './reports.css';

const TABS = [
  { path: '/records', words: 'Shifts and entries' },
  { path: REPORTS_PATH, words: 'Reports' },
] as const;

export function RecordsTabs() {
  const [path] = useLocation();
  return (
    <nav className="part-nav no-print" aria-label="Parts of the records page">
      {TABS.map((tab) => (
        <Link key={tab.path} href={tab.path} aria-current={path === tab.path ? 'page' : undefined}>
          {tab.words}
        </Link>
      ))}
    </nav>
  );
}
