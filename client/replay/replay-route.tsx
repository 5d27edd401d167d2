/** The replay as a page of the console: shifts from its own server, and the way back to the running line. */
import { useEffect, useMemo } from 'react';
import { Link, useSearch } from 'wouter';
import { isUnacknowledged } from '../alarms/order.ts';
import { RUNNING_LINE, SourceContext, useLive, useStore } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { BottomBar } from '../shell/bottom-bar.tsx';
import { takeHandedOn } from './pending.ts';
import { Replay } from './replay-client.ts';
import { ReplayFrame } from './replay-frame.tsx';
import { ShiftList } from './shift-list.tsx';
import { fetchExport } from './shifts.ts';

const spawn = (): Worker => new Worker(new URL('./worker/main.ts', import.meta.url), { type: 'module' });

/** The line goes on while somebody looks at a record: its alarms are told here. */
function ToTheLine() {
  const fresh = useLive((live) => live.view?.alarms.filter(isUnacknowledged).length ?? 0);
  const lost = useLive((live) => live.link === 'lost');
  return (
    <Link href="/" className={fresh > 0 || lost ? 'button to-the-line wanted' : 'button to-the-line'}>
      {(fresh > 0 || lost) && <Mark shape="triangle" />}
      <span className="pill-lines">
        Running line
        {lost && <span className="pill-fresh">connection lost</span>}
        {!lost && fresh > 0 && <span className="pill-fresh">{fresh} new alarms</span>}
      </span>
    </Link>
  );
}

function Leave({ replay }: { readonly replay: Replay }) {
  const isOpen = useStore(replay.state, (state) => state.opened !== null);
  return (
    <SourceContext value={RUNNING_LINE}>
      {isOpen && (
        <Link href="/replay" className="button" onClick={() => replay.close()}>
          Close file
        </Link>
      )}
      <ToTheLine />
    </SourceContext>
  );
}

export function ReplayRoute() {
  const replay = useMemo(() => new Replay(spawn), []);
  const asked = Number(new URLSearchParams(useSearch()).get('shift') ?? Number.NaN);
  useEffect(() => {
    const file = takeHandedOn();
    if (file !== null) replay.open(file, file.name);
    else if (Number.isSafeInteger(asked) && asked > 0)
      void replay.openFetched(`shift ${asked}`, (onShare) => fetchExport(asked, onShare));
    // Leaving the page ends the workers, wherever they are.
    return () => replay.close();
  }, [replay, asked]);
  return (
    <ReplayFrame
      replay={replay}
      shifts={<ShiftList />}
      leave={<Leave replay={replay} />}
      bottom={
        <SourceContext value={RUNNING_LINE}>
          <BottomBar />
        </SourceContext>
      }
      hasLine
    />
  );
}
