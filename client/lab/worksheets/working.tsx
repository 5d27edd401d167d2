/** The arithmetic of a worksheet as it stands: formula, numbers put in, value; what the results are, what was departed from. */

import type { ReactNode } from 'react';
import { isWithin, limitWords } from '../../../machines/lab/judge/limits.ts';
import { propertyNamed } from '../../../machines/lab/worksheets/properties.ts';
import type { WorkedOut } from '../../../machines/lab/worksheets/sheet.types.ts';
import type { Limit } from '../../../machines/scenario/specification.schema.ts';
import { Mark } from '../../parts/mark.tsx';

const rounded = (value: number, decimals: number): string => value.toFixed(decimals).replace(/^-/, '−');

/** Which fields are still empty, a few of them by name. */
export const Wanted = ({ labels }: { readonly labels: readonly string[] }) => (
  <p className="soft">
    {labels.length === 0
      ? 'What is marked at the left stands in the way.'
      : `Still wanted: ${labels.slice(0, 5).join('; ')}${labels.length > 5 ? `; and ${labels.length - 5} more` : ''}.`}
  </p>
);

export function Working({
  worked,
  wanted,
  limits = [],
  children,
}: {
  readonly worked: WorkedOut;
  /** Labels of fields still empty. */
  readonly wanted: readonly string[];
  readonly limits?: readonly Limit[];
  /** A picture between results and working. */
  readonly children?: ReactNode;
}) {
  if (!worked.ok)
    return (
      <div className="working">
        <Wanted labels={wanted} />
        {worked.because
          .filter(({ field }) => field === null)
          .map(({ message }) => (
            <p key={message} className="warn-words">
              {message}
            </p>
          ))}
        {children}
      </div>
    );
  return (
    <div className="working">
      <dl className="results">
        {worked.results.map(({ property, value, reported, unit }) => {
          const outside = limits.find((limit) => limit.property === property && !isWithin(value, limit));
          return (
            <div key={property}>
              <dt>{propertyNamed(property).label}</dt>
              <dd className={outside === undefined ? 'num' : 'num wants-words'}>
                {outside !== undefined && <Mark shape="triangle" />}
                {reported === '' ? `${value} ${unit}` : reported}
                {outside !== undefined && <span className="result-limit">{limitWords(outside)}</span>}
              </dd>
            </div>
          );
        })}
      </dl>
      {children}
      {worked.departures.length > 0 && (
        <ul className="departures">
          {worked.departures.map((words) => (
            <li key={words}>
              <Mark shape="triangle" />
              {words}
            </li>
          ))}
        </ul>
      )}
      {worked.working.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
        <section className="working-scroll" aria-label="The working" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col">Formula and numbers</th>
                <th scope="col">Gives</th>
              </tr>
            </thead>
            <tbody>
              {worked.working.map(({ label, formula, numbers, value, unit, decimals }) => (
                <tr key={`${label}${numbers}`}>
                  <th scope="row">{label}</th>
                  <td className="num">
                    {formula}
                    {numbers !== '' && numbers !== formula && (
                      <span className="soft working-numbers">{numbers}</span>
                    )}
                  </td>
                  <td className="num">
                    {rounded(value, decimals)} {unit}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
      {worked.notes.length > 0 && (
        <ul className="bullets soft">
          {worked.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
