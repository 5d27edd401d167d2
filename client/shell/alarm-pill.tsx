/** How many alarms want a person, and the way to the list. Strong, but it never flashes. */
import type { AlarmView } from '../../machines/line/view.types.ts';
import { isActive, isUnacknowledged, worstPriority } from '../alarms/order.ts';
import { plural } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';

const NONE: readonly AlarmView[] = [];

export function AlarmPill({ open, onToggle }: { readonly open: boolean; readonly onToggle: () => void }) {
  const alarms = useLive((live) => live.view?.alarms ?? NONE);
  const active = alarms.filter(isActive);
  const fresh = active.filter(isUnacknowledged).length;
  const worst = worstPriority(active);
  const tone = worst === null ? 'calm' : fresh === 0 ? 'known' : worst === 'high' ? 'high' : 'fresh';
  const words = active.length === 0 ? 'No alarms' : plural(active.length, 'alarm');
  return (
    <button
      type="button"
      id="alarm-pill"
      className={`button alarm-pill ${tone}`}
      aria-expanded={open}
      aria-controls="alarms"
      onClick={onToggle}
    >
      {worst !== null && (
        <Mark shape={worst === 'high' ? 'triangle' : worst === 'medium' ? 'diamond' : 'square'} />
      )}
      <span className="pill-lines">
        {words}
        {fresh > 0 && <span className="pill-fresh">{fresh} new</span>}
      </span>
    </button>
  );
}
