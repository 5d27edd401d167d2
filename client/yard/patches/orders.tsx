/** Orders for mix: what is needed, what is made and laid, and what may be done about each. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { OrderShown } from '../../../machines/yard/patches/view.ts';
import { plural } from '../../format/format.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { ChangeOrder } from './change-order.tsx';
import type { PatchesHere } from './use-patches.ts';
import { dayWords, mass, mixName, routeName } from './words.ts';

const SHAPE: { readonly [S in OrderShown['state']]: Shape } = {
  open: 'ring',
  'part made': 'dot',
  made: 'square',
  delivered: 'check',
  withdrawn: 'diamond',
};

type Doing = { readonly what: 'withdraw' | 'putBack' | 'settle' | 'change'; readonly order: OrderShown };

function Acts({ order, onDo }: { readonly order: OrderShown; readonly onDo: (doing: Doing) => void }) {
  if (order.state === 'delivered') return null;
  if (order.state === 'withdrawn')
    return (
      <button type="button" className="button" onClick={() => onDo({ what: 'putBack', order })}>
        Put back
      </button>
    );
  return (
    <div className="row yp-acts">
      <button type="button" className="button" onClick={() => onDo({ what: 'change', order })}>
        Change
      </button>
      <button type="button" className="button" onClick={() => onDo({ what: 'withdraw', order })}>
        Withdraw
      </button>
      {order.filled > 0 && (
        <button type="button" className="button" onClick={() => onDo({ what: 'settle', order })}>
          Settle
        </button>
      )}
    </div>
  );
}

function OrderItem({
  order,
  mix,
  today,
  onDo,
}: {
  readonly order: OrderShown;
  readonly mix: string;
  readonly today: string;
  readonly onDo: (doing: Doing) => void;
}) {
  const live = order.state !== 'delivered' && order.state !== 'withdrawn';
  const overdue = live && order.state !== 'made' && order.neededBy < today;
  const differs = live && Math.abs(order.needNowKg - order.needKg) > 0.05;
  const share = order.makeKg === 0 ? 1 : Math.min(1, order.madeGrams / 1000 / order.makeKg);
  return (
    <li className={live ? 'yp-order' : 'yp-order yp-old'}>
      <div className="yp-order-head">
        <strong className="num">{order.id}</strong>
        <span className="tag row">
          <Mark shape={SHAPE[order.state]} />
          {order.state}
        </span>
        <span>{mix}</span>
        <span className={overdue ? 'warn-words' : 'soft'}>
          needed by {dayWords(order.neededBy)}
          {overdue ? ' – overdue' : ''}
        </span>
      </div>
      <p className="soft">
        For{' '}
        {order.lists.map((list, i) => (
          <span key={list}>
            {i > 0 ? ', ' : ''}
            <Link href={`/yard/patches/${list}`}>{list}</Link>
          </span>
        ))}
        {order.route === null ? '' : `, ${routeName(order.route)}`}: {mass(order.needKg)}
        {order.fromStockKg > 0 ? `, ${mass(order.fromStockKg)} of it from stock` : ''}
        {order.batches > 0
          ? `; ${plural(order.batches, 'batch', 'batches')}, ${mass(order.makeKg)} to make`
          : ''}
        .{order.lots.length > 0 ? ` Lots: ${order.lots.join(', ')}.` : ''}
      </p>
      <div className="yp-order-bar">
        <div className="bar" aria-hidden="true">
          <i style={{ width: `${share * 100}%` }} />
        </div>
        <span className="num">
          made {mass(order.madeGrams / 1000)} · laid {mass(order.deliveredKg)}
          {order.holes > 0 ? ` in ${order.filled} of ${order.holes} holes` : ''}
        </span>
      </div>
      {differs && (
        <p className="row warn-words">
          <Mark shape="triangle" />
          The list takes {mass(order.needNowKg)} now: change the order, or leave it with a reason known to
          you.
        </p>
      )}
      <Acts order={order} onDo={onDo} />
    </li>
  );
}

const ASKS = {
  withdraw: {
    title: 'Withdraw this order',
    words: 'The order stays on record as withdrawn. What has been made for it stays in stock.',
    go: 'Withdraw',
  },
  putBack: { title: 'Put this order back', words: 'It counts again in the plan.', go: 'Put back' },
} as const;

export function Orders({
  orders,
  book,
  today,
}: {
  readonly orders: readonly OrderShown[];
  readonly book: PatchesHere;
  readonly today: string;
}) {
  const [doing, setDoing] = useState<Doing | null>(null);
  const close = () => setDoing(null);
  if (orders.length === 0)
    return <p className="soft yp-empty">No order yet: open a patch list and make one from it.</p>;
  return (
    <>
      <ul className="yp-orders">
        {orders.map((order) => (
          <OrderItem
            key={order.id}
            order={order}
            mix={book.view === null ? order.mix : mixName(book.view, order.mix)}
            today={today}
            onDo={setDoing}
          />
        ))}
      </ul>
      {doing?.what === 'change' && (
        <ChangeOrder order={doing.order} book={book} today={today} onClose={close} />
      )}
      {(doing?.what === 'withdraw' || doing?.what === 'putBack') && (
        <ConfirmDialog
          {...ASKS[doing.what]}
          needsReason
          onGo={(reason) => {
            const order = doing.order.id;
            const withdrawn = doing.what === 'withdraw';
            close();
            void book.put(
              withdrawn ? { do: 'withdrawOrder', order, reason } : { do: 'putBackOrder', order, reason },
              withdrawn ? `Order ${order} withdrawn.` : `Order ${order} put back.`,
            );
          }}
          onClose={close}
        />
      )}
      {doing?.what === 'settle' && (
        <ConfirmDialog
          title="Settle this order"
          words={`${mass(doing.order.deliveredKg)} has been laid in ${doing.order.filled} of ${doing.order.holes} holes. Settled, it asks for no more mix.`}
          go="Settle"
          onGo={() => {
            const order = doing.order.id;
            close();
            void book.put({ do: 'deliverOrder', order }, `Order ${order} settled.`);
          }}
          onClose={close}
        />
      )}
    </>
  );
}
