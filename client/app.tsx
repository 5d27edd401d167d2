/** The frame of the console: header, page, guide, alarms and the bar at the bottom. */
import { useCallback, useMemo, useState } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { AlarmsDrawer } from './alarms/alarms-drawer.tsx';
import { ChartsPage } from './charts-page.tsx';
import { Guide } from './guide/guide.tsx';
import { resumeGuide } from './guide/guide-state.ts';
import { InterlockPage } from './interlock/interlock-page.tsx';
import { LabPages, LabShift } from './lab/lab-pages.tsx';
import { LabStrips } from './lab/strips.tsx';
import { LessonsPage } from './lessons/lessons-page.tsx';
import { LinePage } from './line/line-page.tsx';
import { SESSION } from './live/session.ts';
import { useLive } from './live/store.ts';
import { LotsPage } from './lots/lots-page.tsx';
import { LiveRegion } from './parts/live-region.tsx';
import { RecordsPage } from './records/records-page.tsx';
import { ReportsPage } from './reports/reports-page.tsx';
import { Banners } from './shell/banners.tsx';
import { BottomBar } from './shell/bottom-bar.tsx';
import { ErrorBoundary } from './shell/error-boundary.tsx';
import { Header, type Opened } from './shell/header.tsx';
import { HelpDialog } from './shell/help-dialog.tsx';
import { belongsTo, PAGES } from './shell/nav.tsx';
import { pageName, usePageTitle } from './shell/page-title.ts';
import { useShortcuts } from './shell/shortcuts.ts';
import { Toast } from './shell/toast.tsx';
import { ToolsDialog } from './shell/tools-dialog.tsx';
import { DrillBand, WaitingForDrill } from './training/drill-band.tsx';
import { TrainingPages } from './training/training-pages.tsx';
import { YardPage } from './yard/yard-page.tsx';

function Waiting() {
  return (
    <section className="card waiting-line" role="status">
      <h1>Looking for the line…</h1>
      <p className="soft">
        This page fills itself as soon as the server answers. If it stays empty, see whether the program is
        still running.
      </p>
    </section>
  );
}

function Pages() {
  return (
    <Switch>
      <Route path="/">
        <LinePage />
      </Route>
      <Route path="/lots">{SESSION === null ? <LabShift /> : <LotsPage />}</Route>
      <Route path="/lab/*?">
        <LabPages />
      </Route>
      <Route path="/records">
        <RecordsPage />
      </Route>
      <Route path="/records/reports">
        <ReportsPage />
      </Route>
      <Route path="/charts">
        <ChartsPage />
      </Route>
      <Route path="/yard/*?">
        <YardPage />
      </Route>
      <Route path="/interlock/lessons/:lesson">{({ lesson }) => <LessonsPage lesson={lesson} />}</Route>
      <Route path="/interlock/:part?">
        <InterlockPage />
      </Route>
      <Route path="/training/*?">
        <TrainingPages />
      </Route>
      <Route>
        <section className="card failure">
          <h1>No such page</h1>
          <p>Use the pages named at the top.</p>
        </section>
      </Route>
    </Switch>
  );
}

export function App() {
  const [path, go] = useLocation();
  const [opened, setOpened] = useState<Opened>('none');
  const [alarmsOpen, setAlarmsOpen] = useState(false);
  const ready = useLive((live) => live.view !== null);
  const lost = useLive((live) => live.link === 'lost');
  usePageTitle(pageName(path, PAGES.find((page) => belongsTo(page, path))?.name ?? 'No such page'));

  const closeAlarms = useCallback(() => {
    setAlarmsOpen(false);
    document.getElementById('alarm-pill')?.focus();
  }, []);
  const acts = useMemo(
    () => ({ onAlarms: () => setAlarmsOpen((open) => !open), onHelp: () => setOpened('help') }),
    [],
  );
  useShortcuts(acts);

  return (
    <div className={lost ? 'frame stale' : 'frame'}>
      <a className="skip hidden-words" href="#page">
        Skip to the page
      </a>
      <Header alarmsOpen={alarmsOpen} onAlarms={acts.onAlarms} onOpen={setOpened} />
      <div className="above-page">
        <Banners />
        <LabStrips />
      </div>
      {SESSION !== null && <DrillBand />}
      <main id="page" tabIndex={-1}>
        <ErrorBoundary key={path}>
          {ready ? <Pages /> : SESSION === null ? <Waiting /> : <WaitingForDrill />}
        </ErrorBoundary>
      </main>
      {alarmsOpen && <AlarmsDrawer onClose={closeAlarms} />}
      {ready && path === '/' && SESSION === null && <Guide />}
      <Toast />
      <BottomBar />
      <LiveRegion />
      {opened === 'tools' && <ToolsDialog onClose={() => setOpened('none')} />}
      {opened === 'help' && (
        <HelpDialog
          onClose={() => setOpened('none')}
          onGuide={() => {
            setOpened('none');
            go('/');
            resumeGuide();
          }}
        />
      )}
    </div>
  );
}
