/** After the end of a shift: choose which one comes next, and open it. */
import { useId, useState } from 'react';
import { useLedger } from '../live/ledger.ts';
import { runLine } from '../live/line.ts';
import { whyNotRun } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { Refusal } from '../parts/refusal.tsx';
import './next-shift.css';

/** A shift opened from the yard's plan; the plan offers the next one, so the old one is not offered again. */
const PLANNED = 'planned-shift';
const MOST_DAYS = 400;

/** The day of the yard's plan that has work next, or null. */
const usePlannedDay = (): string | null =>
  useLedger('patches').view?.plan?.days.find(({ runs }) => runs.length > 0)?.date ?? null;

export function NextShift() {
  const all = useLive((live) => live.shifts);
  const shifts = all.filter((each) => each.id !== PLANNED);
  const plannedDay = usePlannedDay();
  const present = useLive((live) => live.view?.shift.id ?? '');
  const asked = useCommand();
  const [chosen, setChosen] = useState<string | null>(null);
  const [days, setDays] = useState('1');
  const id = useId();
  const planned = plannedDay === null ? null : PLANNED;
  const first = shifts.some((each) => each.id === present) ? present : (shifts[0]?.id ?? '');
  const shift = chosen ?? planned ?? first;
  const name =
    shift === PLANNED
      ? 'the planned shift'
      : (shifts.find((each) => each.id === shift)?.name ?? 'the next shift');
  const afterDays = Number(days);
  const because = whyNotRun(
    useLive((live) => live.me),
    'opening a shift',
  );
  const open = () => {
    if (because.length > 0) return asked.explain(because);
    if (!Number.isInteger(afterDays) || afterDays < 1 || afterDays > MOST_DAYS)
      return asked.explain([`Write after how many days it opens: 1 to ${MOST_DAYS}.`]);
    const what = shift === PLANNED ? { planned: true as const } : shift === '' ? {} : { shift };
    const when = afterDays === 1 ? {} : { afterDays };
    void asked.ask(() => runLine({ do: 'nextShift', ...what, ...when }), `Opened: ${name}.`);
  };
  return (
    <div className="acts-box">
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <div className="next-shift">
        <div className="field">
          <label htmlFor={id}>Next shift</label>
          <select id={id} value={shift} onChange={(event) => setChosen(event.target.value)}>
            {plannedDay !== null && <option value={PLANNED}>Planned for {plannedDay}</option>}
            {shifts.map((each) => (
              <option key={each.id} value={each.id}>
                {each.id === present ? `${each.name} again` : each.name}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-days`}>In days</label>
          <input
            id={`${id}-days`}
            type="number"
            inputMode="numeric"
            min={1}
            max={MOST_DAYS}
            value={days}
            onChange={(event) => setDays(event.target.value)}
          />
        </div>
      </div>
      <div className="acts">
        <button
          type="button"
          className="button act primary"
          data-barred={because.length > 0}
          aria-busy={asked.waiting}
          onClick={open}
        >
          Open the next shift
        </button>
      </div>
    </div>
  );
}
