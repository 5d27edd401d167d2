/** The replay as a page of the console: shifts from its own server, and the way back to the running line. */
import { type MouseEvent, type ReactNode, useEffect, useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import { isUnacknowledged } from '../alarms/order.ts';
import { plural } from '../format/format.ts';
import { RUNNING_LINE, SourceContext, useLive, useStore } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { BottomBar } from '../shell/bottom-bar.tsx';
import { takeHandedOn } from './pending.ts';
import { Replay } from './replay-client.ts';
import { ReplayFrame } from './replay-frame.tsx';
import { ShiftList } from './shift-list.tsx';
import { fetchExport } from './shifts.ts';

const spawn = (): Worker => new Worker(new URL('./worker/main.ts', import.meta.url), { type: 'module' });

/** Pages of the replay have a location of their own, in memory: these ways lead out of it, by the address of the console. */
function WayOut({
  href,
  className,
  onGo,
  children,
}: {
  readonly href: string;
  readonly className: string;
  readonly onGo: (href: string) => void;
  readonly children: ReactNode;
}) {
  const press = (event: MouseEvent<HTMLAnchorElement>) => {
    // With a key held it opens in another tab, as links do.
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    onGo(href);
  };
  return (
    <a href={href} className={className} onClick={press}>
      {children}
    </a>
  );
}

/** The line goes on while somebody looks at a record: its alarms are told here. */
function ToTheLine({ onGo }: { readonly onGo: (href: string) => void }) {
  const fresh = useLive((live) => live.view?.alarms.filter(isUnacknowledged).length ?? 0);
  const lost = useLive((live) => live.link === 'lost');
  const wanted = fresh > 0 || lost;
  return (
    <WayOut href="/" className={wanted ? 'button to-the-line wanted' : 'button to-the-line'} onGo={onGo}>
      {wanted && <Mark shape="triangle" />}
      <span className="pill-lines">
        Running line
        {lost && <span className="pill-fresh">connection lost</span>}
        {!lost && fresh > 0 && <span className="pill-fresh">{plural(fresh, 'new alarm')}</span>}
      </span>
    </WayOut>
  );
}

function Leave({ replay, onGo }: { readonly replay: Replay; readonly onGo: (href: string) => void }) {
  const isOpen = useStore(replay.state, (state) => state.opened !== null);
  return (
    <SourceContext value={RUNNING_LINE}>
      {isOpen && (
        <WayOut
          href="/replay"
          className="button"
          onGo={(href) => {
            replay.close();
            onGo(href);
          }}
        >
          Close file
        </WayOut>
      )}
      <ToTheLine onGo={onGo} />
    </SourceContext>
  );
}

export function ReplayRoute() {
  const replay = useMemo(() => new Replay(spawn), []);
  const [, go] = useLocation();
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
      leave={<Leave replay={replay} onGo={go} />}
      bottom={
        <SourceContext value={RUNNING_LINE}>
          <BottomBar />
        </SourceContext>
      }
      hasLine
    />
  );
}
