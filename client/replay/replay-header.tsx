/** The band at the top of a replay: that it is one, of when, who had the controls, and the pages there are. */
import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { AlarmPill } from '../shell/alarm-pill.tsx';
import { useReplay } from './context.ts';
import { longDate } from './dates.ts';
import { TICK_MS } from './replay.types.ts';
import { standingOf } from './verdict-words.ts';

export const REPLAY_PAGES = [
  { path: '/', name: 'Line' },
  { path: '/lots', name: 'Lots' },
  { path: '/interlock', name: 'Interlock' },
  { path: '/charts', name: 'Charts' },
  { path: '/records', name: 'Entries' },
  { path: '/traces', name: 'Traces' },
  { path: '/compare', name: 'Compare' },
  { path: '/notes', name: 'Notes' },
] as const;

export const CHECK_PATH = '/check';

export function ReplayBrand() {
  return (
    <span className="brand replay-brand">
      <svg className="mark" viewBox="0 0 14 14" aria-hidden="true">
        <path d="M7 1 1 7l6 6zM13.5 1l-6 6 6 6z" fill="currentColor" />
      </svg>
      Replay
    </span>
  );
}

function Nav() {
  const [path] = useLocation();
  return (
    <nav className="nav" aria-label="Pages of the replay">
      {REPLAY_PAGES.map((page) => (
        <Link key={page.path} href={page.path} aria-current={path === page.path ? 'page' : undefined}>
          {page.name}
        </Link>
      ))}
    </nav>
  );
}

function When() {
  const shift = useReplay((state) => state.opened?.manifest.shift ?? null);
  const at = useReplay((state) => state.at.a);
  // The moment that is drawn, which may be a little behind the one that is wanted.
  const drawnMs = useLive((live) => live.view?.shift.atMs ?? 0);
  if (shift === null) return null;
  return (
    <div className="replay-when">
      <span className="clock num" data-clock data-drawn={drawnMs}>
        {shiftClock(shift.startsAt, at * TICK_MS)}
      </span>
      <span className="shift-name">
        {longDate(shift.date)}
        <span className="hidden-words">, {shift.name}</span>
      </span>
    </div>
  );
}

function Had() {
  const seat = useLive((live) => live.view?.seat ?? null);
  if (seat === null) return null;
  const words =
    seat.standIn !== null
      ? `Stand-in (${seat.standIn}) had the controls`
      : seat.holder === null
        ? 'Nobody had the controls'
        : `${seat.holder.name} had the controls`;
  return <span className="replay-had">{words}</span>;
}

function CheckPill() {
  const standing = useReplay(standingKey);
  const { tone, shape, short } = JSON.parse(standing) as ReturnType<typeof standingOf>;
  return (
    <Link href={CHECK_PATH} className={`button check-pill ${tone}`}>
      <Mark shape={shape} />
      {short}
      <span className="hidden-words">: what the check of this file says</span>
    </Link>
  );
}

/** A plain value, so that the pill is drawn again only when its words change. */
const standingKey = (state: Parameters<typeof standingOf>[0]): string => JSON.stringify(standingOf(state));

export function ReplayHeader({
  alarmsOpen,
  onAlarms,
  leave,
}: {
  readonly alarmsOpen: boolean;
  readonly onAlarms: () => void;
  /** The way out: to the running line, or to another file. */
  readonly leave: ReactNode;
}) {
  return (
    <header className="header replay-header">
      <ReplayBrand />
      <Nav />
      <div className="header-state">
        <When />
        <Had />
        <CheckPill />
        <AlarmPill open={alarmsOpen} onToggle={onAlarms} />
        {leave}
      </div>
    </header>
  );
}
