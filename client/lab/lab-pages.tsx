/** The parts of the Lab page by their addresses. */
import { Route, Switch } from 'wouter';
import { LotsOfShift, MadeThisShift } from '../lots/lots-page.tsx';
import { LabFrame } from './frame.tsx';
import { LotPage } from './lots/lot-page.tsx';
import { LotsList } from './lots/lots-list.tsx';
import { SamplePage } from './samples/sample-page.tsx';
import { SamplesList } from './samples/samples-list.tsx';
import { SealPage } from './specifications/seal-page.tsx';
import { SpecificationsPage } from './specifications/specifications-page.tsx';
import { LabNow, Today } from './today/today.tsx';
import { TrendsPage } from './trends/trends-page.tsx';
import { NewSheetPage } from './worksheets/new-sheet-page.tsx';
import { WorksheetPage } from './worksheets/worksheet-page.tsx';
import { WorksheetsList } from './worksheets/worksheets-list.tsx';

/** The lab's first part: the officer's day, then the lots of the shift with their batches. */
export function LabShift() {
  return (
    <LabFrame title="Lab" under={<LabNow />}>
      <Today />
      <div className="lot-head">
        <h2>Lots of this shift</h2>
        <span className="soft">
          <MadeThisShift />
        </span>
      </div>
      <LotsOfShift />
    </LabFrame>
  );
}

export function LabPages() {
  return (
    <Switch>
      <Route path="/lab">
        <LabShift />
      </Route>
      <Route path="/lab/lots">
        <LotsList />
      </Route>
      <Route path="/lab/lots/:lot">{({ lot }) => <LotPage id={lot} />}</Route>
      <Route path="/lab/samples">
        <SamplesList />
      </Route>
      <Route path="/lab/samples/:lot/:n">{({ lot, n }) => <SamplePage lotId={lot} n={Number(n)} />}</Route>
      <Route path="/lab/worksheets">
        <WorksheetsList />
      </Route>
      <Route path="/lab/worksheets/new">
        <NewSheetPage />
      </Route>
      <Route path="/lab/worksheets/:id">{({ id }) => <WorksheetPage id={id} />}</Route>
      <Route path="/lab/trends">
        <TrendsPage />
      </Route>
      <Route path="/lab/specifications">
        <SpecificationsPage />
      </Route>
      <Route path="/lab/specifications/seal/:lot?">{({ lot }) => <SealPage id={lot ?? null} />}</Route>
      <Route>
        <LabFrame title="Lab">
          <p className="card empty">There is no such part of the lab. Use the parts named above.</p>
        </LabFrame>
      </Route>
    </Switch>
  );
}
