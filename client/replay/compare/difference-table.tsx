/** What differs between the two moments, row by row. */
import { useMemo, useState } from 'react';
import type { LineView } from '../../../machines/line/view.types.ts';
import { plural } from '../../format/format.ts';
import { Mark } from '../../parts/mark.tsx';
import { differencesOf } from './differences.ts';

export function DifferenceTable({ a, b }: { readonly a: LineView; readonly b: LineView }) {
  const [all, setAll] = useState(false);
  const sections = useMemo(() => differencesOf(a, b), [a, b]);
  const count = sections.reduce((sum, section) => sum + section.rows.filter((row) => row.differs).length, 0);
  return (
    <section className="card" aria-label="Differences">
      <div className="replay-side-head">
        <h2>{count === 0 ? 'No difference' : plural(count, 'difference')}</h2>
        <label className="check">
          <input
            type="checkbox"
            className="hidden-words"
            checked={all}
            onChange={(event) => setAll(event.target.checked)}
          />
          <span className="box">
            <Mark shape="check" />
          </span>
          Show what is the same too
        </label>
      </div>
      {sections.map(({ title, rows }) => {
        const shown = all ? rows : rows.filter((row) => row.differs);
        if (shown.length === 0) return null;
        return (
          <table key={title} className="record replay-differences">
            <caption>{title}</caption>
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">First</th>
                <th scope="col">Second</th>
                <th scope="col">Change</th>
              </tr>
            </thead>
            <tbody>
              {shown.map((row) => (
                <tr key={row.key} className={row.differs ? 'differs' : 'soft'}>
                  <th scope="row">{row.label}</th>
                  <td className="num">{row.a}</td>
                  <td className="num">{row.b}</td>
                  <td className="num">{row.change}</td>
                </tr>
              ))}
            </tbody>
          </table>
        );
      })}
    </section>
  );
}
