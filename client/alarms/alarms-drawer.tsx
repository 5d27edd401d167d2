/** The alarm list beside the plant: what is wrong, what to do, and acknowledge, shelve or take out of service. */
import { useEffect, useRef } from 'react';
import type { AlarmView } from '../../machines/line/view.types.ts';
import { useLive } from '../live/store.ts';
import { AlarmItem } from './alarm-item.tsx';
import { inOrder } from './order.ts';

const NONE: readonly AlarmView[] = [];

export function AlarmsDrawer({ onClose }: { readonly onClose: () => void }) {
  const alarms = useLive((live) => live.view?.alarms ?? NONE);
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <aside className="drawer" aria-label="Alarms">
      {/* Not modal: the plant stays in sight and the emergency stop in reach. */}
      <div
        id="alarms"
        className="drawer-card"
        role="dialog"
        aria-labelledby="alarms-title"
        onKeyDown={(event) => {
          const inModal = event.target instanceof Element && event.target.closest('dialog') !== null;
          if (event.key === 'Escape' && !inModal) onClose();
        }}
      >
        <div className="dialog-head">
          <h2 id="alarms-title" ref={heading} tabIndex={-1}>
            Alarms
          </h2>
          <button type="button" className="button quiet" onClick={onClose} aria-label="Close the alarm list">
            ✕
          </button>
        </div>
        {alarms.length === 0 ? (
          <p className="empty">Nothing wants you. Alarms appear here with what to do about them.</p>
        ) : (
          <ul className="alarm-list">
            {inOrder(alarms).map((alarm) => (
              <AlarmItem key={alarm.id} alarm={alarm} startsAt={startsAt} />
            ))}
          </ul>
        )}
      </div>
    </aside>
  );
}
