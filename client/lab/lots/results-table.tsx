/** Results of a lot against the limits of its specification: every result there is, what counts, what fails. */
import { Link } from 'wouter';
import type { LabLot } from '../../../machines/lab/state.ts';
import { Mark } from '../../parts/mark.tsx';
import { propertyWords, valueWords } from '../words.ts';
import { limitWords, type PropertyRow, plainLimits } from './judged.ts';
import { LimitStrip } from './limit-strip.tsx';

export function ResultsTable({ lot, rows }: { readonly lot: LabLot; readonly rows: readonly PropertyRow[] }) {
  const sheetOf = (sample: number, test: string, retest: number) =>
    lot.worksheets.filter((one) => one.sample === sample && one.test === test && one.aside === null)[
      retest
    ] ?? null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="lab-table" aria-label="Results against limits, scrolls sideways" tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">Property</th>
            <th scope="col">Limit</th>
            <th scope="col">Results, by sample</th>
            <th scope="col">Against the limit</th>
            <th scope="col">Stands</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ property, limits, results, failing }) => {
            const { from, to } = plainLimits(limits);
            const counting = results.filter(({ counts }) => counts);
            return (
              <tr key={property}>
                <th scope="row">{propertyWords(property)}</th>
                <td className="num">
                  {limits.length === 0 ? (
                    <span className="soft">none</span>
                  ) : (
                    limits.map((limit) => (
                      <span key={limitWords(limit)} className="block">
                        {limitWords(limit)}
                      </span>
                    ))
                  )}
                </td>
                <td className="num">
                  {results.length === 0 && <span className="soft">not yet</span>}
                  {results.map((result) => {
                    const sheet = sheetOf(result.sample, result.test, result.retest ?? 0);
                    const text = valueWords(property, result.value);
                    return (
                      <span key={`${result.sample}/${result.retest}`} className="block one-line">
                        {result.counts ? text : <del>{text}</del>}{' '}
                        <span className="soft">
                          {sheet === null ? (
                            `sample ${result.sample}`
                          ) : (
                            <Link href={`/lab/worksheets/${sheet.id}`}>sample {result.sample}</Link>
                          )}
                          {(result.retest ?? 0) > 0 && ', retest'}
                          {!result.counts && ', does not count'}
                        </span>
                      </span>
                    );
                  })}
                </td>
                <td>
                  {limits.length > 0 && property !== 'workable' && (
                    <LimitStrip
                      values={counting.map(({ value }) => value)}
                      from={from}
                      to={to}
                      words={`${propertyWords(property)}: ${counting.map(({ value }) => valueWords(property, value)).join(', ') || 'no result'}; limit ${limits.map(limitWords).join(' and ') || 'none'}`}
                    />
                  )}
                </td>
                <td>
                  {failing.length > 0 ? (
                    <span className="lot-state wants">
                      <Mark shape="triangle" />
                      {failing.join(' ')}
                    </span>
                  ) : counting.length === 0 ? (
                    <span className="soft">{limits.length === 0 ? '–' : 'no result yet'}</span>
                  ) : limits.length === 0 ? (
                    <span className="soft">not judged</span>
                  ) : (
                    'within'
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
