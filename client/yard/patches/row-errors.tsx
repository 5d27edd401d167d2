/** Rows that cannot be taken as they are: which, what is in them, and what to do. */
import type { BadRow } from '../../../machines/yard/patches/csv/rows.ts';
import { plural } from '../../format/format.ts';
import { Mark } from '../../parts/mark.tsx';

const ROWS_SHOWN = 50;

export function RowErrors({
  bad,
  leaveOut,
  onLeaveOut,
}: {
  readonly bad: readonly BadRow[];
  readonly leaveOut: boolean;
  readonly onLeaveOut: (yes: boolean) => void;
}) {
  if (bad.length === 0) return null;
  return (
    <section className="yp-bad stack" aria-labelledby="yp-bad">
      <h3 id="yp-bad" className="row">
        <Mark shape="triangle" />
        {plural(bad.length, 'row')} cannot be taken
      </h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by keyboard */}
      <section className="yp-bad-rows" tabIndex={0} aria-label="Rows that cannot be taken">
        <ul>
          {bad.slice(0, ROWS_SHOWN).map(({ line, cells, because }) => (
            <li key={line}>
              <strong className="num">Row {line}</strong>
              <span className="soft yp-cells">{cells.filter((cell) => cell.trim() !== '').join(' | ')}</span>
              <ul>
                {because.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
        {bad.length > ROWS_SHOWN && <p>And {bad.length - ROWS_SHOWN} more.</p>}
      </section>
      <p>Mend them where they come from and read again, or leave them out:</p>
      <label className="check">
        <input
          type="checkbox"
          className="hidden-words"
          checked={leaveOut}
          onChange={(event) => onLeaveOut(event.target.checked)}
        />
        <span className="box">
          <Mark shape="check" />
        </span>
        Leave {bad.length === 1 ? 'this row' : `these ${bad.length} rows`} out; how many is kept with the list
      </label>
    </section>
  );
}
