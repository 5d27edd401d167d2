/** Resets the trip where its causes are read; the line refuses while one still stands. */
import { useLive } from '../live/store.ts';
import { Refusal } from '../parts/refusal.tsx';
import { useGive } from './use-give.ts';

export function ResetTrip() {
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  // Dashed while the line would refuse it, as on the Line page.
  const refused = useLive(
    (live) =>
      live.view?.now.actions.some(
        ({ command, because }) => command.do === 'resetTrip' && because.length > 0,
      ) ?? false,
  );
  const giving = useGive();
  if (!tripped) return null;
  return (
    <div className="stack">
      <Refusal because={giving.refusal} onClose={giving.clear} />
      <button
        type="button"
        className="button primary"
        data-barred={refused || giving.against('resetTrip').length > 0}
        aria-busy={giving.waiting}
        onClick={() => void giving.give({ do: 'resetTrip' }, 'Trip reset. Nothing starts by itself.')}
      >
        Reset the trip
      </button>
    </div>
  );
}
