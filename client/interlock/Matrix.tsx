/** The cause-and-effect matrix as a table: causes down, final elements across, what is active now marked. */
import { memo } from 'react';
import {
  causeAndEffect,
  type Effect,
  effectsNow,
  MATRIX_COLUMNS,
  type MatrixRow,
} from '../../machines/charts/flame-interlock/matrix.ts';
import type { CausesView } from '../../machines/line/view.types.ts';
import { Mark } from '../parts/mark.tsx';
import { type CauseState, GROUPS, stateOf, stateWords } from './causes.ts';

const LETTER: { readonly [E in Effect]: string } = {
  trips: 'T',
  shuts: 'S',
  'keeps shut': 'K',
  'keeps running': 'R',
};
const WORDS: { readonly [E in Effect]: string } = {
  trips: 'trips it shut or still, until a person resets',
  shuts: 'shuts it, and keeps it shut while the cause holds',
  'keeps shut': 'keeps it from being opened; does not shut it once open',
  'keeps running': 'keeps it running',
};
const SHAPE = { clear: 'ring', holds: 'diamond', latched: 'triangle' } as const;

const Row = memo(function Row({ row, state }: { readonly row: MatrixRow; readonly state: CauseState }) {
  return (
    <tr className={`cem-row ${state}`}>
      <th scope="row">
        <span className="cem-id num">{row.id}</span> {row.cause}
      </th>
      <td className="cem-state">
        {state !== 'clear' && (
          <span>
            <Mark shape={SHAPE[state]} />
            {stateWords(row.id, state)}
          </span>
        )}
      </td>
      {MATRIX_COLUMNS.map(({ id, name }) => {
        const effect = row.effects[id];
        return (
          <td key={id} className={effect === undefined ? 'cem-cell' : `cem-cell on ${state}`}>
            {effect !== undefined && (
              <>
                <span aria-hidden="true">{LETTER[effect]}</span>
                <span className="hidden-words">
                  {effect}: {name}
                </span>
              </>
            )}
          </td>
        );
      })}
    </tr>
  );
});

export function Matrix({ causes }: { readonly causes: CausesView }) {
  const now = new Map(effectsNow(causes.holding, causes.latched).map((one) => [one.column, one]));
  return (
    <div className="cem">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by keyboard */}
      <section className="cem-scroll" aria-label="Causes and what they act on" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Cause</th>
              <th scope="col">Now</th>
              {MATRIX_COLUMNS.map(({ id, name }) => (
                <th key={id} scope="col" className="cem-element">
                  <span>{name}</span>
                </th>
              ))}
            </tr>
            <tr className="cem-now">
              <th scope="row" colSpan={2}>
                All causes together, now
              </th>
              {MATRIX_COLUMNS.map(({ id }) => {
                const effect = now.get(id)?.effect;
                return (
                  <td key={id} className={effect === undefined ? 'cem-cell' : 'cem-cell acting'}>
                    {effect !== undefined && (
                      <>
                        <span aria-hidden="true">{LETTER[effect]}</span>
                        <span className="hidden-words">{effect}</span>
                      </>
                    )}
                  </td>
                );
              })}
            </tr>
          </thead>
          {GROUPS.map(({ prefix, title }) => (
            <tbody key={prefix}>
              <tr className="cem-group">
                <th scope="rowgroup" colSpan={2 + MATRIX_COLUMNS.length}>
                  {title}
                </th>
              </tr>
              {causeAndEffect
                .filter(({ id }) => id.startsWith(prefix))
                .map((row) => (
                  <Row key={row.id} row={row} state={stateOf(row.id, causes)} />
                ))}
            </tbody>
          ))}
        </table>
      </section>
      <ul className="cem-legend">
        {(Object.entries(WORDS) as [Effect, string][]).map(([effect, words]) => (
          <li key={effect}>
            <b>{LETTER[effect]}</b> {words}
          </li>
        ))}
        <li>
          <Mark shape="diamond" /> holds now
        </li>
        <li>
          <Mark shape="triangle" /> latched
        </li>
      </ul>
    </div>
  );
}
