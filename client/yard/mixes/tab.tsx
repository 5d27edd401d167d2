/** Job mixes: the list with their versions, and the sheet a mix is worked out on. */
import { Route, Switch } from 'wouter';
import { Compare } from './compare.tsx';
import { Editor } from './editor.tsx';
import { Overview } from './overview.tsx';
import './mixes.css';
import './pictures.css';
import './sheet.css';

export function Tab() {
  return (
    <Switch>
      <Route path="/yard/mixes/:mix/compare">{({ mix }) => <Compare id={mix} />}</Route>
      <Route path="/yard/mixes/:mix">{({ mix }) => <Editor key={mix} id={mix} />}</Route>
      <Route>
        <Overview />
      </Route>
    </Switch>
  );
}
