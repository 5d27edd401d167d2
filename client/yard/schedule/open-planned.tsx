/** Opens the next day of the plan as a shift, once the shift before it has ended. */
import { useLocation } from 'wouter';
import type { Plan } from '../../../machines/yard/patches/schedule/plan.types.ts';
import type { PatchesView } from '../../../machines/yard/patches/view.ts';
import { runLine } from '../../live/line.ts';
import { whyNotRun } from '../../live/may.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { dayWords } from '../patches/words.ts';

export function OpenPlanned({ plan, shift }: { readonly plan: Plan; readonly shift: PatchesView['shift'] }) {
  const asked = useCommand();
  const [, go] = useLocation();
  const me = useLive((live) => live.me);
  const next = plan.days.find(({ runs }) => runs.length > 0);
  if (next === undefined) return null;
  const because = [
    ...whyNotRun(me, 'opening a shift'),
    ...(shift?.ended === true
      ? []
      : ['The shift that runs has not ended: end it first (Line), then open the planned one.']),
  ];
  const open = async () => {
    if (because.length > 0) return asked.explain(because);
    if (await asked.ask(() => runLine({ do: 'nextShift', planned: true }), 'The planned shift is open.'))
      go('/');
  };
  return (
    <div className="stack">
      <button
        type="button"
        className="button primary"
        data-barred={because.length > 0}
        aria-busy={asked.waiting}
        onClick={() => void open()}
      >
        Open the planned shift, {dayWords(next.date)}
      </button>
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </div>
  );
}
