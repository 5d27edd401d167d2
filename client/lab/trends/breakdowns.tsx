/** The same results apart by what was so when they were made. */
import { useState } from 'react';
import { breakdown, LABEL_WORDS, type LabelName, type Series } from '../../../machines/lab/stats/index.ts';
import { useLive } from '../../live/store.ts';
import { useLab } from '../data.ts';
import { labelWords, valueWords } from '../words.ts';

const BY: readonly LabelName[] = ['operator', 'delivery', 'bin', 'mixVersion', 'scaleZeroed', 'weather'];

export function Breakdowns({ lots, property }: { readonly lots: Series; readonly property: string }) {
  const [by, setBy] = useState<LabelName>('operator');
  const people = useLive((live) => live.people);
  const { mixes } = useLab().view;
  const { groups, unlabelled, words } = breakdown(lots, by);
  return (
    <section className="card stack" aria-labelledby="by-head">
      <h2 id="by-head">Broken down</h2>
      <div className="row">
        <label htmlFor="by-what">By</label>
        <select
          id="by-what"
          className="narrow"
          value={by}
          onChange={(event) => setBy(BY.find((one) => one === event.target.value) ?? 'operator')}
        >
          {BY.map((one) => (
            <option key={one} value={one}>
              {LABEL_WORDS[one]}
            </option>
          ))}
        </select>
      </div>
      {groups.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
        <section className="lab-table" aria-label="Breakdown, scrolls sideways" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">{LABEL_WORDS[by]}</th>
                <th scope="col">Lots</th>
                <th scope="col">Mean</th>
                <th scope="col">Standard deviation</th>
              </tr>
            </thead>
            <tbody>
              {groups.map(({ label, n, mean, deviation }) => (
                <tr key={label}>
                  <th scope="row">{labelWords(label, people, mixes)}</th>
                  <td className="num">{n}</td>
                  <td className="num">{valueWords(property, mean)}</td>
                  <td className="num">{deviation === null ? '–' : deviation.toFixed(3)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      <p>{groups.length === 0 ? `No lot shown has its ${LABEL_WORDS[by]} noted.` : words}</p>
      {unlabelled > 0 && groups.length > 0 && (
        <p className="soft">{unlabelled} without a note of it are left out.</p>
      )}
    </section>
  );
}
