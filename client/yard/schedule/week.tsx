/** The plan of the days ahead: days with their runs, the sequence of orders and who may move it. */
import { useState } from 'react';
import { Link } from 'wouter';
import { planWeek } from '../../../machines/yard/patches/schedule/plan.ts';
import type { Plan, PlanInput } from '../../../machines/yard/patches/schedule/plan.types.ts';
import type { PatchesView } from '../../../machines/yard/patches/view.ts';
import { plainDays, plural } from '../../format/format.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { PatchesHere } from '../patches/use-patches.ts';
import { mass, mixName } from '../patches/words.ts';
import { Days } from './days.tsx';
import { OpenPlanned } from './open-planned.tsx';
import { Sequence } from './sequence.tsx';

const costWords = ({ cost, late }: Plan): string =>
  [
    cost.changes === 0
      ? 'nothing is changed over'
      : `${plural(cost.changes, 'change-over')} (tank, dryer, flame rules)`,
    late.length === 0 ? 'nothing is late' : `${plural(late.length, 'order')} late`,
    ...(cost.stuckBatches > 0 ? [`${plural(cost.stuckBatches, 'batch', 'batches')} cannot be made yet`] : []),
  ].join(', ');

/** Binder the runs take, against what the tanks hold by the books. */
function Binder({ plan, from }: { readonly plan: Plan; readonly from: PlanInput }) {
  const runs = plan.days.flatMap((day) => day.runs);
  const parts = (['emulsion', 'cutback'] as const).flatMap((family) => {
    const kg = runs.reduce((sum, run) => {
      const job = from.jobs.find(({ order }) => order === run.order);
      return job?.family === family ? sum + run.batches * job.binderKg : sum;
    }, 0);
    const there = from.binderKg[family];
    if (kg === 0) return [];
    return [`${mass(kg)} of ${family}${there === null ? '' : ` (${mass(there)} there)`}`];
  });
  return parts.length === 0 ? null : <p className="soft">The plan takes {parts.join(' and ')}.</p>;
}

function Verdict({ plan }: { readonly plan: Plan }) {
  const more = plan.cost.changes - plan.best.cost.changes;
  const later = plan.cost.lateDays - plan.best.cost.lateDays;
  const bad = plan.late.length > 0 || plan.stuck.length > 0;
  return (
    <div className="stack">
      <p className={bad ? 'row warn-words' : 'row'}>
        <Mark shape={bad ? 'triangle' : 'check'} />
        {costWords(plan).replace(/^./, (letter) => letter.toUpperCase())}.
      </p>
      {plan.byHand && (
        <p className="soft">
          This sequence was put by hand. The plan's own has {plural(plan.best.cost.changes, 'change-over')}
          {more > 0 ? `, ${more} fewer` : ''}
          {later > 0 ? `, and ${plural(later, 'day')} less delay` : ''}.
        </p>
      )}
      {!plan.byHand && plan.sequence.length > 1 && (
        <p className="soft">
          {plan.proved
            ? 'Every sequence of these orders was tried: none has less delay, and of those with as little none has fewer change-overs.'
            : 'There are too many orders to try every sequence: this is the best found, and there may be a better one.'}
        </p>
      )}
      {plan.stuck.map(({ order, batches, why }) => (
        <p className="row warn-words" key={`${order} ${why}`}>
          <Mark shape="triangle" />
          <span>
            {order}, {plural(batches, 'batch', 'batches')}: {plainDays(why)}
          </span>
        </p>
      ))}
    </div>
  );
}

export function Week({ view, book }: { readonly view: PatchesView; readonly book: PatchesHere }) {
  const [tried, setTried] = useState<readonly string[] | null>(null);
  const [asking, setAsking] = useState<'keep' | 'own' | null>(null);
  const { plan, planFrom } = view;
  if (plan === null || planFrom === null)
    return (
      <section className="card">
        <h2>The week</h2>
        <p className="soft yp-empty">There is no plan before a shift has been opened on the Line page.</p>
      </section>
    );
  const shown = tried === null ? plan : planWeek({ ...planFrom, arranged: tried });
  const barred = book.whyNot('arrangeWeek');
  const ask = (what: 'keep' | 'own') => (barred === null ? setAsking(what) : book.asked.explain([barred]));
  return (
    <>
      <section className="card stack" aria-labelledby="ys-week">
        <div className="yp-head">
          <h2 id="ys-week">The week</h2>
          <OpenPlanned plan={plan} shift={view.shift} />
        </div>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        {view.withoutMix.length > 0 && (
          <p className="row warn-words">
            <Mark shape="triangle" />
            {view.withoutMix.join(', ')}: no version of its mix is approved, so it is not planned. Approve one
            under Mixes.
          </p>
        )}
        {shown.sequence.length === 0 ? (
          <>
            <p className="soft yp-empty">
              Nothing is left to make. Orders are made from patch lists: open a list and press Order mix.
            </p>
            <div className="row">
              <Link href="/yard/patches" className="button">
                Open the patch lists
              </Link>
            </div>
          </>
        ) : (
          <>
            <Verdict plan={shown} />
            <Binder plan={shown} from={planFrom} />
            <div className="ys-split">
              <Sequence
                plan={shown}
                orders={view.orders}
                nameOf={(mix) => mixName(view, mix)}
                onMove={(sequence) => setTried(sequence)}
                actions={
                  <div className="row">
                    {tried !== null && (
                      <>
                        <button type="button" className="button primary" onClick={() => ask('keep')}>
                          Keep this sequence
                        </button>
                        <button type="button" className="button" onClick={() => setTried(null)}>
                          Back to what stands
                        </button>
                      </>
                    )}
                    {tried === null && view.week.arranged !== null && (
                      <button type="button" className="button" onClick={() => ask('own')}>
                        Let the plan decide again
                      </button>
                    )}
                  </div>
                }
              />
              <Days plan={shown} view={view} book={book} />
            </div>
          </>
        )}
      </section>
      {asking === 'keep' && tried !== null && (
        <ConfirmDialog
          title="Keep this sequence"
          words={`With it ${costWords(shown)}.`}
          go="Keep it"
          needsReason
          onGo={async (reason) => {
            setAsking(null);
            if (await book.put({ do: 'arrangeWeek', orders: [...tried], reason }, 'The sequence is kept.'))
              setTried(null);
          }}
          onClose={() => setAsking(null)}
        />
      )}
      {asking === 'own' && (
        <ConfirmDialog
          title="Let the plan decide again"
          words="The plan's own sequence takes the place of the one put by hand."
          go="Let it decide"
          needsReason
          onGo={(reason) => {
            setAsking(null);
            void book.put({ do: 'arrangeWeek', orders: null, reason }, 'The plan decides again.');
          }}
          onClose={() => setAsking(null)}
        />
      )}
    </>
  );
}
