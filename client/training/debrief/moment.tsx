/** The console as it stood at a moment of the drill, to look at: nothing can be commanded from it. */
import { useMemo } from 'react';
import type { LineView } from '../../../machines/line/view.types.ts';
import type { Person } from '../../../machines/scenario/people.schema.ts';
import { LinePage } from '../../line/line-page.tsx';
import { type Live, NOTHING_YET } from '../../live/reducer.ts';
import { seatIn } from '../../live/session.ts';
import { createStore, type Source, SourceContext } from '../../live/store.ts';
import { useGot } from '../use-got.ts';

const PAST =
  'This is a moment of a finished drill: nothing can be done in it. “Try again from here” begins a new attempt.';

export function MomentView({
  session,
  tick,
  me,
  trainee,
}: {
  readonly session: string;
  readonly tick: number;
  readonly me: Person;
  readonly trainee: string;
}) {
  const got = useGot<{ view: LineView }>(
    `/api/training/sessions/${session}/view?person=${encodeURIComponent(me.id)}&tick=${tick}`,
  );
  const view = got.value?.view ?? null;
  const source = useMemo((): Source | null => {
    if (view === null) return null;
    const live: Live = {
      ...NOTHING_YET,
      link: 'live',
      me,
      view,
      run: { simulated: true, speed: 1, paused: true, seq: 0, head: '', trouble: null },
    };
    return {
      store: createStore(live),
      barred: PAST,
      seenAt: seatIn(session, trainee),
      ribbon: null,
      hasLine: true,
    };
  }, [view, me, session, trainee]);
  if (got.because !== null) return <p className="card">{got.because.join(' ')}</p>;
  if (source === null) return <p className="card soft">Turning the drill to that moment…</p>;
  return (
    <SourceContext value={source}>
      <div className="moment-line">
        <LinePage />
      </div>
    </SourceContext>
  );
}
