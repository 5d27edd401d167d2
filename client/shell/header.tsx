/** The top of every page: pages, shift clock, controls, person, alarms, tools and help. */
import { AlarmPill } from './alarm-pill.tsx';
import { Nav } from './nav.tsx';
import { Seat } from './seat.tsx';
import { ShiftClock } from './shift-clock.tsx';
import { Who } from './who.tsx';

export type Opened = 'none' | 'tools' | 'help';

export function Header({
  alarmsOpen,
  onAlarms,
  onOpen,
}: {
  readonly alarmsOpen: boolean;
  readonly onAlarms: () => void;
  readonly onOpen: (what: Opened) => void;
}) {
  return (
    <header className="header">
      <span className="brand">Patchyard</span>
      <Nav />
      <div className="header-state">
        <ShiftClock />
        <Seat />
        <Who />
        <button type="button" className="button" aria-haspopup="dialog" onClick={() => onOpen('tools')}>
          Plant
        </button>
        <button
          type="button"
          className="button"
          aria-haspopup="dialog"
          data-guide="help"
          onClick={() => onOpen('help')}
        >
          Help
        </button>
        <AlarmPill open={alarmsOpen} onToggle={onAlarms} />
      </div>
    </header>
  );
}
