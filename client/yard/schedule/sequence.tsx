/** The orders in the sequence they are made; moved by dragging or by the buttons, and weighed anew at once. */
import { type ReactNode, useState } from 'react';
import type { Plan } from '../../../machines/yard/patches/schedule/plan.types.ts';
import type { OrderShown } from '../../../machines/yard/patches/view.ts';
import { say } from '../../live/said.ts';
import { Mark } from '../../parts/mark.tsx';
import { dayWords, mass } from '../patches/words.ts';

/** The sequence with the one at `from` put at `to`. */
export const moved = (sequence: readonly string[], from: number, to: number): readonly string[] => {
  const one = sequence[from];
  if (one === undefined || to < 0 || to >= sequence.length || from === to) return sequence;
  const rest = sequence.filter((_, i) => i !== from);
  return [...rest.slice(0, to), one, ...rest.slice(to)];
};

export function Sequence({
  plan,
  orders,
  nameOf,
  onMove,
  actions,
}: {
  readonly plan: Plan;
  readonly orders: readonly OrderShown[];
  readonly nameOf: (mix: string) => string;
  readonly onMove: (sequence: readonly string[]) => void;
  readonly actions: ReactNode;
}) {
  const [dragged, setDragged] = useState<number | null>(null);
  const [over, setOver] = useState<number | null>(null);
  const move = (from: number, to: number) => {
    const next = moved(plan.sequence, from, to);
    if (next === plan.sequence) return;
    onMove(next);
    say(`${plan.sequence[from]} is number ${to + 1} of ${plan.sequence.length}.`);
  };
  return (
    <section className="stack" aria-labelledby="ys-sequence">
      <h3 id="ys-sequence">Sequence</h3>
      <ol className="ys-sequence">
        {plan.sequence.map((id, i) => {
          const order = orders.find((one) => one.id === id);
          const late = plan.late.find((one) => one.order === id);
          return (
            <li
              key={id}
              draggable
              className={over === i && dragged !== null ? 'over' : ''}
              onDragStart={(event) => {
                event.dataTransfer.effectAllowed = 'move';
                event.dataTransfer.setData('text/plain', id);
                setDragged(i);
              }}
              onDragOver={(event) => {
                event.preventDefault();
                setOver(i);
              }}
              onDrop={(event) => {
                event.preventDefault();
                if (dragged !== null) move(dragged, i);
                setDragged(null);
                setOver(null);
              }}
              onDragEnd={() => {
                setDragged(null);
                setOver(null);
              }}
            >
              <span className="ys-place num">{i + 1}</span>
              <div>
                <strong className="num">{id}</strong>
                <span className="yp-under">
                  {order === undefined
                    ? ''
                    : `${nameOf(order.mix)}, ${mass(order.makeKg - order.madeGrams / 1000)}`}
                </span>
                <span className={late === undefined ? 'soft yp-under' : 'warn-words yp-under'}>
                  {late !== undefined && <Mark shape="triangle" />}{' '}
                  {order === undefined ? '' : `by ${dayWords(order.neededBy)}`}
                  {late === undefined ? '' : `, ${late.days} ${late.days === 1 ? 'day' : 'days'} late`}
                </span>
              </div>
              <div className="ys-moves">
                <button
                  type="button"
                  className="button"
                  aria-label={`Make ${id} earlier`}
                  disabled={i === 0}
                  onClick={() => move(i, i - 1)}
                >
                  ↑
                </button>
                <button
                  type="button"
                  className="button"
                  aria-label={`Make ${id} later`}
                  disabled={i === plan.sequence.length - 1}
                  onClick={() => move(i, i + 1)}
                >
                  ↓
                </button>
              </div>
            </li>
          );
        })}
      </ol>
      {actions}
    </section>
  );
}
