/** The pages under Training: the seats, one drill under way, its debrief, and a person's history. */
import { Route, Switch } from 'wouter';
import { DebriefPage } from './debrief/debrief-page.tsx';
import { HistoryPage } from './history-page.tsx';
import { SessionPage } from './session-page.tsx';
import { TrainingPage } from './training-page.tsx';
import './training.css';
import './debrief/debrief.css';

export function TrainingPages() {
  return (
    <Switch>
      <Route path="/training">
        <TrainingPage />
      </Route>
      <Route path="/training/session/:session">{({ session }) => <SessionPage session={session} />}</Route>
      <Route path="/training/debrief/:session">{({ session }) => <DebriefPage session={session} />}</Route>
      <Route path="/training/history/:person">{({ person }) => <HistoryPage trainee={person} />}</Route>
      <Route>
        <section className="card failure">
          <h1>No such page</h1>
          <p>Use the pages named at the top.</p>
        </section>
      </Route>
    </Switch>
  );
}
