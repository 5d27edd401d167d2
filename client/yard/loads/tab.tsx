/** Loads: made out for patches, weighed out by the rule, laid and brought back; one load has a page for the hand. */
import { Route, Switch } from 'wouter';
import { LoadPage } from './load-page.tsx';
import { Overview } from './overview.tsx';

export function Tab() {
  return (
    <Switch>
      <Route path="/yard/loads/:load">{({ load }) => <LoadPage id={load} />}</Route>
      <Route>
        <Overview />
      </Route>
    </Switch>
  );
}
