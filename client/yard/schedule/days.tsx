/** The days with work: a bar of the hours, and each run with the reasons why it stands there. */
import { useState } from 'react';
import { weekdayOf } from '../../../machines/yard/patches/schedule/days.ts';
import type { Plan } from '../../../machines/yard/patches/schedule/plan.types.ts';
import { clockOf } from '../../../machines/yard/patches/schedule/why.ts';
import type { PatchesView } from '../../../machines/yard/patches/view.ts';
import { plainDays, plural } from '../../format/format.ts';
import type { PatchesHere } from '../patches/use-patches.ts';
import { dayWords, mass, mixName } from '../patches/words.ts';
import { HoursDialog } from './hours-dialog.tsx';

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
/** Days without work are shown up to the last one that has some, and a week at least. */
const LEAST_DAYS = 7;

type Day = Plan['days'][number];

function Bar({ day, startsAt }: { readonly day: Day; readonly startsAt: string }) {
  const share = (minutes: number): number => (minutes / Math.max(1, day.minutes)) * 1000;
  const words = day.runs
    .map((run) => `${run.order} from ${clockOf(startsAt, run.fromMin)} to ${clockOf(startsAt, run.toMin)}`)
    .join(', ');
  return (
    <svg className="ys-bar" viewBox="0 0 1000 34" preserveAspectRatio="none" role="img" aria-label={words}>
      <rect className="ys-free" x={0} y={4} width={1000} height={26} />
      {day.runs.map((run) => (
        <rect
          key={`${run.order}-${run.fromMin}`}
          className={run.kind === 'cutback' ? 'ys-run cutback' : 'ys-run'}
          x={share(run.fromMin)}
          y={4}
          width={Math.max(3, share(run.toMin - run.fromMin))}
          height={26}
        />
      ))}
      {day.runs
        .filter(({ changes }) => changes.length > 0)
        .map((run) => (
          <rect
            key={`change-${run.fromMin}`}
            className="ys-change"
            x={share(run.fromMin) - 6}
            y={0}
            width={6}
            height={34}
          />
        ))}
    </svg>
  );
}

function DayItem({
  day,
  plan,
  weekday,
  nameOf,
  onHours,
}: {
  readonly day: Day;
  readonly plan: Plan;
  readonly weekday: string;
  readonly nameOf: (mix: string) => string;
  readonly onHours: () => void;
}) {
  const kg = day.runs.reduce((sum, run) => sum + run.kg, 0);
  return (
    <li className="ys-day">
      <div className="yp-head">
        <h4>
          {weekday}, {dayWords(day.date)}
          {kg > 0 && <span className="soft num"> {mass(kg)}</span>}
        </h4>
        <button type="button" className="button quiet" onClick={onHours}>
          {day.minutes === 0 ? 'Day off' : `${plural(day.minutes / 60, 'hour')}`}
          <span className="hidden-words"> on {dayWords(day.date)}: change</span>
        </button>
      </div>
      {day.runs.length > 0 && (
        <>
          <Bar day={day} startsAt={plan.startsAt} />
          <ul className="ys-runs">
            {day.runs.map((run) => (
              <li key={`${run.order}-${run.fromMin}`}>
                <span className="num ys-time">
                  {clockOf(plan.startsAt, run.fromMin)}–{clockOf(plan.startsAt, run.toMin)}
                </span>
                <div>
                  <strong>{nameOf(run.mix)}</strong> for <span className="num">{run.order}</span>:{' '}
                  {plural(run.batches, 'batch', 'batches')}, {mass(run.kg)}, into bay {run.bay}
                  <span className="soft yp-under">{plainDays(run.why.join(' '))}</span>
                </div>
              </li>
            ))}
          </ul>
        </>
      )}
    </li>
  );
}

export function Days({
  plan,
  view,
  book,
}: {
  readonly plan: Plan;
  readonly view: PatchesView;
  readonly book: PatchesHere;
}) {
  const [hours, setHours] = useState<Day | null>(null);
  const last = plan.days.findLastIndex(({ runs }) => runs.length > 0);
  const days = plan.days.slice(0, Math.max(LEAST_DAYS, last + 1));
  return (
    <section className="stack" aria-labelledby="ys-days">
      <h3 id="ys-days">Days</h3>
      <ul className="ys-key row">
        <li className="row">
          <i className="ys-swatch" />
          emulsion
        </li>
        <li className="row">
          <i className="ys-swatch cutback" />
          cutback: no flame near it
        </li>
        <li className="row">
          <i className="ys-swatch change" />
          change-over
        </li>
      </ul>
      <ul className="ys-days">
        {days.map((day) => (
          <DayItem
            key={day.date}
            day={day}
            plan={plan}
            weekday={WEEKDAYS[weekdayOf(day.date)] ?? ''}
            nameOf={(mix) => mixName(view, mix)}
            onHours={() => setHours(day)}
          />
        ))}
      </ul>
      {hours !== null && (
        <HoursDialog
          date={hours.date}
          hours={hours.minutes / 60}
          book={book}
          usual={view.week.hours}
          onClose={() => setHours(null)}
        />
      )}
    </section>
  );
}
