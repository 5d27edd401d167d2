/** One of two moments: its time, what the operator read, who had the controls, and the plant. */
import type { ReactNode } from 'react';
import { PlantDrawing } from '../../drawing/PlantDrawing.tsx';
import { shiftClock } from '../../format/format.ts';
import { useStore } from '../../live/store.ts';
import { useReplay, useReplayClient } from '../context.ts';
import { type Side, TICK_MS } from '../replay.types.ts';
import { moveSide } from './move-side.ts';

const NAMES: { readonly [S in Side]: string } = { a: 'First', b: 'Second' };

export function MomentSide({ side, children }: { readonly side: Side; readonly children?: ReactNode }) {
  const replay = useReplayClient();
  const view = useStore(replay.sides[side], (live) => live.view);
  const startsAt = useReplay((state) => state.opened?.manifest.shift.startsAt ?? '00:00');
  const at = useReplay((state) => state.at[side]);
  return (
    <section className="card replay-side" aria-label={`${NAMES[side]} moment`}>
      <div className="replay-side-head">
        <h2>
          {NAMES[side]} <span className="num">{shiftClock(startsAt, at * TICK_MS)}</span>
        </h2>
        {children}
        <fieldset className="replay-group" aria-label={`Move the ${NAMES[side].toLowerCase()} moment`}>
          {[-60, -1, 1, 60].map((seconds) => (
            <button
              key={seconds}
              type="button"
              className="speed num"
              onClick={() => moveSide(replay, side, seconds)}
            >
              {seconds < 0 ? '−' : '+'}
              {Math.abs(seconds) === 60 ? '1 min' : '1 s'}
            </button>
          ))}
        </fieldset>
      </div>
      {view === null ? (
        <p className="empty">Not worked out yet.</p>
      ) : (
        <>
          <div className="replay-side-words">
            <p className="soft">{view.now.over}</p>
            <p>
              <strong>{view.now.title}</strong>
            </p>
            <p className="soft">
              {view.seat.standIn !== null
                ? `A ${view.seat.standIn} stand-in had the controls`
                : `${view.seat.holder?.name ?? 'Nobody'} had the controls`}
            </p>
          </div>
          <div className="replay-side-plant">
            <PlantDrawing view={view} />
          </div>
        </>
      )}
    </section>
  );
}
