/** Patch lists and the orders made from them. */
import { Route, Switch } from 'wouter';
import { BasisPage } from './basis-page.tsx';
import { ListPage } from './list-page.tsx';
import { NewList } from './new-list.tsx';
import { Overview } from './overview.tsx';
import { Sheet } from './sheet.tsx';
import './patches.css';

export function Tab() {
  return (
    <Switch>
      <Route path="/yard/patches/new">
        <NewList />
      </Route>
      <Route path="/yard/patches/figures">
        <BasisPage />
      </Route>
      <Route path="/yard/patches/:list/sheet">{({ list }) => <Sheet id={list} />}</Route>
      <Route path="/yard/patches/:list">{({ list }) => <ListPage id={list} />}</Route>
      <Route>
        <Overview />
      </Route>
    </Switch>
  );
}
