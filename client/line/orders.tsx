/** What is to be made this shift: choose the order the next batch belongs to. */
import { memo } from 'react';
import type { OrderView } from '../../machines/line/view.types.ts';
import { percent, share01 } from '../format/format.ts';
import { whyNot } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';

const NONE: readonly OrderView[] = [];

const Order = memo(function Order({
  order,
  onChoose,
}: {
  readonly order: OrderView;
  readonly onChoose: (n: number) => void;
}) {
  const made = `${(order.madeKg / 1000).toFixed(1)} of ${order.tonnes} t`;
  return (
    <li>
      <button
        type="button"
        className="order"
        aria-pressed={order.chosen}
        data-family={order.family}
        onClick={() => onChoose(order.n)}
      >
        <span className="order-mark">{order.chosen ? <Mark shape="check" /> : null}</span>
        <span className="order-name">{order.mixName}</span>
        <span className="order-made num">{made}</span>
        <span className="soft order-more">
          {order.family} · bay {order.bay}
        </span>
        <span className="bar thin" aria-hidden="true">
          <i style={{ width: percent(share01(order.madeKg, order.tonnes * 1000)) }} />
        </span>
      </button>
    </li>
  );
});

export function Orders() {
  const orders = useLive((live) => live.view?.orders ?? NONE);
  const at = useStandpoint();
  const asked = useCommand();
  const choose = (n: number) => {
    const because = whyNot('chooseOrder', at);
    if (because.length > 0) asked.explain(because);
    else void asked.send({ do: 'chooseOrder', order: n }, `Order ${n} chosen.`);
  };
  if (orders.length === 0) return <p className="empty">No orders for this shift.</p>;
  return (
    <div className="orders" data-guide="orders">
      <h2 className="label">Orders of this shift</h2>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <ul>
        {orders.map((order) => (
          <Order key={order.n} order={order} onChoose={choose} />
        ))}
      </ul>
    </div>
  );
}
