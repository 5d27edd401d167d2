/** The hot work permit: opened with place, reason and time limit; closed when the work has stopped. */
import { type FormEvent, useId, useState } from 'react';
import type { PermitView } from '../../machines/line/view.types.ts';
import { formatCountdown, shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { useGive } from './use-give.ts';

const NONE: readonly PermitView[] = [];
const CHOICES_MIN = [15, 30, 60, 120, 240] as const;

function OpenForm() {
  const giving = useGive();
  const [where, setWhere] = useState('');
  const [reason, setReason] = useState('');
  const [minutes, setMinutes] = useState<number>(30);
  const [missing, setMissing] = useState(false);
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const tooShort = where.trim().length < 3 || reason.trim().length < 3;
    setMissing(tooShort);
    if (tooShort) return;
    const done = await giving.give(
      { do: 'openHotWork', where: where.trim(), reason: reason.trim(), minutes },
      'Hot work permit opened.',
    );
    if (!done) return;
    setWhere('');
    setReason('');
  };
  return (
    <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
      <div className="form-row">
        <div className="field">
          <label htmlFor={`${id}-w`}>Where</label>
          <input
            id={`${id}-w`}
            type="text"
            maxLength={120}
            value={where}
            onChange={(event) => setWhere(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-r`}>What is done, and who watches for fire</label>
          <input
            id={`${id}-r`}
            type="text"
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-m`}>Time limit</label>
          <select id={`${id}-m`} value={minutes} onChange={(event) => setMinutes(Number(event.target.value))}>
            {CHOICES_MIN.map((choice) => (
              <option key={choice} value={choice}>
                {choice} minutes
              </option>
            ))}
          </select>
        </div>
      </div>
      {missing && <p className="warn-words">Write where and what, at least 3 letters each.</p>}
      <Refusal because={giving.refusal} onClose={giving.clear} />
      <button type="submit" className="button" data-barred={giving.against('openHotWork').length > 0}>
        Open the permit
      </button>
    </form>
  );
}

function Open({ permit }: { readonly permit: PermitView }) {
  const giving = useGive();
  const shift = useLive((live) => live.view?.shift ?? null);
  if (shift === null) return null;
  return (
    <div className={permit.over ? 'permit over' : 'permit'}>
      <p>
        <Mark shape="triangle" /> <strong>Permit {permit.n} is open</strong> at {permit.where}:{' '}
        {permit.reason}
      </p>
      <p>
        Opened by {permit.by} at {shiftClock(shift.startsAt, permit.openedMs, false)}.{' '}
        {permit.over
          ? 'Its time has run out: see that the work has stopped and nothing smoulders, then close it.'
          : `Ends in ${formatCountdown((permit.untilMs - shift.atMs) / 1000)}.`}
      </p>
      <Refusal because={giving.refusal} onClose={giving.clear} />
      <button
        type="button"
        className="button primary"
        data-barred={giving.against('closeHotWork').length > 0}
        onClick={() => void giving.give({ do: 'closeHotWork' }, 'Hot work permit closed.')}
      >
        The work has stopped: close it
      </button>
    </div>
  );
}

export function HotWork() {
  const permits = useLive((live) => live.view?.permits ?? NONE);
  return (
    <section className="card stack" aria-labelledby="hot-work-title">
      <h2 id="hot-work-title">Hot work permit</h2>
      <p className="hazard">
        <Mark shape="triangle" />
        <span>
          Welding, cutting and grinding light vapour that nobody smells. A permit here holds cutback and tank
          heat back; it does not make the place safe. Gas-test it, clear it, keep an extinguisher and a
          watcher there.
        </span>
      </p>
      {permits.length === 0 ? <OpenForm /> : permits.map((permit) => <Open key={permit.n} permit={permit} />)}
    </section>
  );
}
