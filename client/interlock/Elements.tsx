/** The final elements, each with its position, what the causes of this moment do to it, and which they are. */
import {
  effectsNow,
  isColumnLetThrough,
  MATRIX_COLUMNS,
} from '../../machines/charts/flame-interlock/matrix.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import type { CausesView } from '../../machines/line/view.types.ts';
import { Mark } from '../parts/mark.tsx';

/** A hyphen at which no line ends, so that an ID stays in one piece. */
const UNBROKEN = '\u2011';

const EFFECT_WORDS = {
  trips: 'tripped',
  shuts: 'held shut',
  'keeps shut': 'kept from opening',
  'keeps running': 'kept running',
} as const;

const POSITIONS: { readonly [column: string]: readonly [atRest: string, letThrough: string] } = {
  hood: ['still', 'running'],
  motion: ['still', 'moving'],
  oilBurner: ['out', 'lit'],
};

export function Elements({ outputs, causes }: { readonly outputs: Outputs; readonly causes: CausesView }) {
  const now = effectsNow(causes.holding, causes.latched);
  return (
    <ul className="desk-elements">
      {MATRIX_COLUMNS.map((column) => {
        const acting = now.find((one) => one.column === column.id);
        const open = column.id === 'hood' ? outputs.hoodFan : isColumnLetThrough(column, outputs, AT_REST);
        return (
          <li key={column.id} className={acting === undefined ? '' : 'acting'}>
            <Mark shape={open ? 'dot' : 'ring'} />
            <span>
              <strong>{column.name}</strong>
              <span>{(POSITIONS[column.id] ?? ['shut', 'open'])[open ? 1 : 0]}</span>
            </span>
            <span className="soft num">
              {acting === undefined
                ? 'free'
                : `${EFFECT_WORDS[acting.effect]}: ${acting.causes.join(', ').replaceAll('-', UNBROKEN)}`}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
