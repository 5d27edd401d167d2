/** What stands between the console and the line: connection lost, record not writable, shift ended. */
import { shiftClock } from '../format/format.ts';
import { UpkeepBanners } from '../interlock/upkeep-banners.tsx';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';

export function Banners() {
  const lost = useLive((live) => live.link === 'lost');
  const lastSeen = useLive((live) =>
    live.link === 'lost' && live.view !== null
      ? shiftClock(live.view.shift.startsAt, live.view.shift.atMs)
      : '',
  );
  const trouble = useLive((live) => live.run?.trouble ?? null);
  const room = useLive((live) => live.run?.room ?? null);
  return (
    <div className="banners" role="status">
      {lost && (
        <p className="banner strong">
          <Mark shape="triangle" />
          Connection lost, last seen {lastSeen}; the line goes on without this console. Trying again…
        </p>
      )}
      {trouble !== null && (
        <p className="banner strong">
          <Mark shape="triangle" />
          The line is held: {trouble}
        </p>
      )}
      {room !== null && trouble === null && (
        <p className="banner">
          <Mark shape="triangle" />
          {room}
        </p>
      )}
      <UpkeepBanners />
    </div>
  );
}
