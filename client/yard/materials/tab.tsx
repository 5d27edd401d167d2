/** Materials: what tanks, bins, heaps and shelf hold, how long it lasts, and what came in. */
import { useState } from 'react';
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { MayButton, StockWaiting } from '../stock/parts.tsx';
import { useStock } from '../stock/use-stock.ts';
import { CountDialog } from './count-dialog.tsx';
import { DeliveriesPart } from './deliveries.tsx';
import { DeliveryDialog } from './delivery-dialog.tsx';
import { DipDialog } from './dip-dialog.tsx';
import { MeasurementsPart } from './measurements.tsx';
import { NeedsPart } from './needs.tsx';
import { RuleDialog } from './rule-dialog.tsx';
import { StoreCard } from './store-card.tsx';

type Open =
  | { readonly what: 'delivery' }
  | { readonly what: 'dip' | 'count' | 'rule'; readonly store: StoreView };

export function Tab() {
  const book = useStock();
  const [open, setOpen] = useState<Open | null>(null);
  const { view } = book;
  if (view === null || view.yard === null) return <StockWaiting book={book} />;
  const { materials } = view;
  const close = () => setOpen(null);
  const card = (store: StoreView) => (
    <StoreCard
      key={store.id}
      store={store}
      book={book}
      onMeasure={() => setOpen({ what: store.kind === 'tank' ? 'dip' : 'count', store })}
      onRule={() => setOpen({ what: 'rule', store })}
    />
  );
  const of = (...kinds: StoreView['kind'][]) =>
    materials.stores.filter((store) => kinds.includes(store.kind));
  return (
    <div className="stack sk">
      <div className="sk-head">
        <p className="soft">
          Levels by the books: what came in less what was weighed out. Dip or count to hold them against the
          yard.
        </p>
        <MayButton book={book} what="registerDelivery" primary onClick={() => setOpen({ what: 'delivery' })}>
          Enter a delivery
        </MayButton>
      </div>
      {open === null && <Refusal because={book.asked.refusal} onClose={book.asked.clear} />}
      <NeedsPart materials={materials} />
      <section className="stack" aria-label="Binder tanks">
        <h2>Binder tanks</h2>
        <div className="sk-stores">{of('tank').map(card)}</div>
      </section>
      <section className="stack" aria-label="Bins of the line">
        <h2>Bins of the line</h2>
        <div className="sk-stores">{of('bin').map(card)}</div>
      </section>
      <section className="stack" aria-label="Heaps and shelf">
        <h2>Heaps in the yard, additive on the shelf</h2>
        <div className="sk-stores">{of('pile', 'additive').map(card)}</div>
      </section>
      <DeliveriesPart book={book} materials={materials} />
      <MeasurementsPart materials={materials} />
      {open?.what === 'delivery' && <DeliveryDialog book={book} bins={view.bins} onClose={close} />}
      {open?.what === 'dip' && <DipDialog book={book} store={open.store} onClose={close} />}
      {open?.what === 'count' && <CountDialog book={book} store={open.store} onClose={close} />}
      {open?.what === 'rule' && <RuleDialog book={book} store={open.store} onClose={close} />}
    </div>
  );
}
