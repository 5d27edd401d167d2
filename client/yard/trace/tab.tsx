/** Tracing: from a delivery, batch, lot, load, operator or scale forward to patches, from a patch back; recalls and drills. */
import { Link, Route, Switch, useLocation } from 'wouter';
import { DrillPage } from './drill-page.tsx';
import { RecallPage } from './recall-page.tsx';
import { Recalls } from './recalls.tsx';
import { TracePage } from './trace-page.tsx';
import './trace.css';

const PARTS = [
  ['/yard/trace', 'Trace'],
  ['/yard/trace/recalls', 'Recalls'],
  ['/yard/trace/drill', 'Recall drill'],
] as const;

export function Tab() {
  const [path] = useLocation();
  return (
    <div className="stack tr">
      <nav className="tr-parts no-print" aria-label="Parts of tracing">
        {PARTS.map(([to, words]) => (
          <Link
            key={to}
            href={to}
            aria-current={
              path === to || (to !== '/yard/trace' && path.startsWith(`${to}/`)) ? 'page' : undefined
            }
          >
            {words}
          </Link>
        ))}
      </nav>
      <Switch>
        <Route path="/yard/trace/recalls">
          <Recalls />
        </Route>
        <Route path="/yard/trace/recalls/:recall">{({ recall }) => <RecallPage id={recall} />}</Route>
        <Route path="/yard/trace/drill">
          <DrillPage />
        </Route>
        <Route>
          <TracePage />
        </Route>
      </Switch>
    </div>
  );
}
