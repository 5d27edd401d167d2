/** The frame of a replay: its band, the means of moving through the shift, the console's own pages, and the ribbon. */
import { lazy, type ReactNode, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { Route, Router, Switch, useLocation } from 'wouter';
import { memoryLocation } from 'wouter/memory-location';
import { AlarmsDrawer } from '../alarms/alarms-drawer.tsx';
import { ChartsPage } from '../charts-page.tsx';
import { InterlockPage } from '../interlock/interlock-page.tsx';
import { LinePage } from '../line/line-page.tsx';
import { say } from '../live/said.ts';
import { type Source, SourceContext, useStore } from '../live/store.ts';
import { LotsPage } from '../lots/lots-page.tsx';
import { LiveRegion } from '../parts/live-region.tsx';
import { ErrorBoundary } from '../shell/error-boundary.tsx';
import { toast } from '../shell/shortcuts.ts';
import { Toast } from '../shell/toast.tsx';
import { CheckPage } from './check-page.tsx';
import { ComparePage } from './compare/compare-page.tsx';
import { ReplayContext, useReplay, useReplayClient } from './context.ts';
import { EntriesPage } from './entries-page.tsx';
import { ReplayHelp } from './help-dialog.tsx';
import { useReplayKeys } from './keys.ts';
import { NotesContext } from './notes/note-context.ts';
import { aboutOf, NoteBook } from './notes/notes.ts';
import { NotesPage } from './notes/notes-page.tsx';
import { OpenPanel } from './open-panel.tsx';
import { OptionsDialog } from './options-dialog.tsx';
import type { Replay } from './replay-client.ts';
import { ReplayBrand, ReplayHeader } from './replay-header.tsx';
import { ReplayRibbon } from './replay-ribbon.tsx';
import { GO_TO_ID, Transport } from './transport.tsx';
import { Warnings } from './warnings.tsx';
import './replay.css';

const TracesPage = lazy(async () => ({ default: (await import('./traces/traces-page.tsx')).TracesPage }));

export const REPLAY_BARRED = 'Replay: nothing can be commanded.';
/** A console id nobody has: what somebody who looked on saw. */
const ONLOOKER = 'replay';

/** Pages that show the line itself, and so need its charts to be run again. */
function OfTheLine({ children }: { readonly children: ReactNode }) {
  const replay = useReplayClient();
  const declined = useReplay((state) => state.opened?.declined ?? null);
  const drawn = useStore(replay.sides.a, (live) => live.view !== null);
  if (declined !== null)
    return (
      <section className="card failure">
        <h1>These screens are not drawn</h1>
        <p>{declined}</p>
        <p className="soft">Entries and Traces show everything that was recorded.</p>
      </section>
    );
  return drawn ? children : <p className="card empty">Running the charts again…</p>;
}

const line = (page: ReactNode) => <OfTheLine>{page}</OfTheLine>;

function Pages() {
  return (
    <Switch>
      <Route path="/">{line(<LinePage />)}</Route>
      <Route path="/lots">{line(<LotsPage />)}</Route>
      <Route path="/interlock">{line(<InterlockPage />)}</Route>
      <Route path="/charts">{line(<ChartsPage />)}</Route>
      <Route path="/records">
        <EntriesPage />
      </Route>
      <Route path="/traces">
        <Suspense fallback={<p className="card empty">Drawing…</p>}>
          <TracesPage />
        </Suspense>
      </Route>
      <Route path="/compare">{line(<ComparePage />)}</Route>
      <Route path="/notes">
        <NotesPage />
      </Route>
      <Route path="/check">
        <CheckPage />
      </Route>
      <Route>
        <section className="card failure">
          <h1>Not part of the replay</h1>
          <p>This page belongs to the console. Use the pages named at the top.</p>
        </section>
      </Route>
    </Switch>
  );
}

type Opened = 'none' | 'help' | 'options';

function Open({ leave, bottom }: { readonly leave: ReactNode; readonly bottom: ReactNode }) {
  const replay = useReplayClient();
  const [path] = useLocation();
  const [opened, setOpened] = useState<Opened>('none');
  const [alarmsOpen, setAlarmsOpen] = useState(false);
  const about = useReplay((state) => (state.opened === null ? '' : aboutOf(state.opened)));
  const book = useMemo(() => new NoteBook(about), [about]);
  const bookmark = useCallback(() => {
    book.add(replay.state.get().at.a, '');
    const text = 'Bookmarked. It stands under Notes.';
    say(text);
    toast.set(text);
  }, [book, replay]);
  const acts = useMemo(
    () => ({
      onAlarms: () => setAlarmsOpen((open) => !open),
      onHelp: () => setOpened('help'),
      onGo: () => document.getElementById(GO_TO_ID)?.focus(),
      onBookmark: bookmark,
    }),
    [bookmark],
  );
  const closeAlarms = useCallback(() => {
    setAlarmsOpen(false);
    document.getElementById('alarm-pill')?.focus();
  }, []);
  useReplayKeys(replay, acts);
  const ribbonBelow = path !== '/';
  return (
    <NotesContext value={book}>
      <ReplayHeader alarmsOpen={alarmsOpen} onAlarms={acts.onAlarms} leave={leave} />
      <div className="replay-top">
        <Transport onBookmark={bookmark} onOptions={() => setOpened('options')} onHelp={acts.onHelp} />
        <Warnings />
      </div>
      <main id="page" tabIndex={-1}>
        <ErrorBoundary key={path}>
          <Pages />
        </ErrorBoundary>
      </main>
      <div className="replay-foot">
        {ribbonBelow && (
          <section className="card ribbon" aria-label="Shift ribbon">
            <ReplayRibbon />
          </section>
        )}
        {bottom}
      </div>
      {alarmsOpen && <AlarmsDrawer onClose={closeAlarms} />}
      {opened === 'help' && <ReplayHelp onClose={() => setOpened('none')} />}
      {opened === 'options' && <OptionsDialog onClose={() => setOpened('none')} />}
    </NotesContext>
  );
}

/** Everything below shows the record instead of the running line. */
function FromTheRecord({ hasLine, children }: { readonly hasLine: boolean; readonly children: ReactNode }) {
  const replay = useReplayClient();
  const seenBy = useReplay((state) => state.seenBy);
  const holderAt = useStore(replay.sides.a, (live) => live.view?.seat.holder?.console ?? ONLOOKER);
  const seenAt = seenBy === 'onlooker' ? ONLOOKER : holderAt;
  const source: Source = useMemo(
    () => ({ store: replay.sides.a, barred: REPLAY_BARRED, seenAt, ribbon: <ReplayRibbon />, hasLine }),
    [replay, seenAt, hasLine],
  );
  return <SourceContext value={source}>{children}</SourceContext>;
}

export function ReplayFrame({
  replay,
  shifts,
  leave,
  bottom,
  hasLine,
}: {
  readonly replay: Replay;
  /** The shifts to choose from, where a server keeps some. */
  readonly shifts: ReactNode;
  readonly leave: ReactNode;
  readonly bottom: ReactNode;
  readonly hasLine: boolean;
}) {
  const opened = useStore(replay.state, (state) => state.opened);
  const title =
    opened === null ? 'Replay' : `Replay · ${opened.manifest.shift.name}, ${opened.manifest.shift.date}`;
  useEffect(() => {
    document.title = `${title} · Patchyard`;
  }, [title]);
  // Pages of the replay have no address of their own: a file on a disk has none to give.
  const where = useMemo(() => memoryLocation({ path: '/' }), []);
  const isOpen = opened !== null;
  useEffect(() => {
    if (!isOpen) where.navigate('/');
  }, [where, isOpen]);
  return (
    <ReplayContext value={replay}>
      <FromTheRecord hasLine={hasLine}>
        <div className="frame replay-frame">
          {isOpen ? (
            <Router hook={where.hook}>
              <Open leave={leave} bottom={bottom} />
            </Router>
          ) : (
            <>
              <header className="header replay-header">
                <ReplayBrand />
                <div className="header-state">{leave}</div>
              </header>
              <div className="replay-top" />
              <main id="page" tabIndex={-1}>
                <OpenPanel shifts={shifts} />
              </main>
              <div className="replay-foot">{bottom}</div>
            </>
          )}
          <Toast />
          <LiveRegion />
        </div>
      </FromTheRecord>
    </ReplayContext>
  );
}
