/** The matrix on the page and on paper: with date, plant, version and the words that it is not safety-rated. */
import { useState } from 'react';
import { shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { CAUTION } from '../shell/caution.ts';
import { NO_CAUSES } from './empty.ts';
import { Matrix } from './Matrix.tsx';

export function MatrixPart() {
  const causes = useLive((live) => live.view?.causes ?? NO_CAUSES);
  const shift = useLive((live) => live.view?.shift ?? null);
  const program = useLive((live) => live.program);
  const [paper, setPaper] = useState<'a4' | 'a3'>('a4');
  return (
    <section className={`matrix-part ${paper}`} aria-labelledby="matrix-title">
      <div className="lot-head">
        <h2 id="matrix-title">Cause and effect</h2>
        <p className="soft">Drawn from the same data the charts and the gate work by.</p>
        <div className="row head-act no-print">
          <button type="button" className="button" onClick={() => setPaper(paper === 'a4' ? 'a3' : 'a4')}>
            Paper: {paper.toUpperCase()}
          </button>
          <button type="button" className="button" onClick={() => window.print()}>
            Print
          </button>
        </div>
      </div>
      {shift !== null && (
        <p className="print-only print-head">
          <strong>{shift.plantName}</strong> · {shift.name}, {shift.date}{' '}
          {shiftClock(shift.startsAt, shift.atMs)} by the plant’s clock · {program} · {CAUTION}
        </p>
      )}
      <Matrix causes={causes} />
      <p className="no-print">
        <a href="/api/pages/interlock" download="interlock.html">
          Save the interlock as a page of its own
        </a>{' '}
        <span className="soft">
          to tick causes and see what it does, without a server; the same charts and the same gate.
        </span>
      </p>
    </section>
  );
}
