/** One store: its picture, level, days left, where it stands against its order level, and what it is made of. */
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { MayButton } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { days, difference, mass, when } from '../stock/words.ts';
import { storeTitle } from './names.ts';
import { BinPicture, TankPicture } from './pictures.tsx';

const ORDER: { readonly [O in StoreView['order']]: { readonly shape: Shape; readonly words: string } } = {
  enough: { shape: 'check', words: 'enough' },
  'order now': { shape: 'flag', words: 'order now' },
  'too late': { shape: 'triangle', words: 'will run out before a delivery can come' },
  'not used yet': { shape: 'ring', words: 'not used yet, so no rate is known' },
};

/** Parts that are called the same are told as one: opening stock of several days, say. */
const byWords = (holds: StoreView['holds']): readonly { readonly words: string; readonly kg: number }[] => {
  const sums = new Map<string, number>();
  for (const { words, kg } of holds) sums.set(words, (sums.get(words) ?? 0) + kg);
  return [...sums].map(([words, kg]) => ({ words, kg }));
};

export function StoreCard({
  store,
  book,
  onMeasure,
  onRule,
}: {
  readonly store: StoreView;
  readonly book: StockHere;
  readonly onMeasure: () => void;
  readonly onRule: () => void;
}) {
  const { measured, rule } = store;
  const order = ORDER[store.order];
  const isBin = store.kind === 'bin';
  const holds = byWords(store.holds);
  return (
    <article className="card sk-store">
      <h3>
        {storeTitle(store.id, store.material)} <span className="soft">{store.what}</span>
      </h3>
      {store.kind === 'tank' && <TankPicture store={store} />}
      {isBin && <BinPicture store={store} />}
      <p className="sk-figures num">
        <strong>{mass(store.kg)}</strong>
        {store.capacityKg !== null && (
          <span>
            of {mass(store.capacityKg)}, {Math.round((100 * store.kg) / store.capacityKg)} %
          </span>
        )}
        {store.daysLeft !== null && <span>{days(store.daysLeft)} of work left</span>}
      </p>
      {!isBin && (
        <p
          className={
            store.order === 'enough' || store.order === 'not used yet' ? 'sk-state' : 'sk-state sk-warn'
          }
        >
          <Mark shape={order.shape} />
          <span>{order.words}</span>
        </p>
      )}
      <dl className="sk-dl num">
        {store.useKgDay !== null && (
          <>
            <dt>Use</dt>
            <dd>
              {mass(store.useKgDay)} a day of work, mean of{' '}
              {store.useDays === 1 ? 'one day' : `${store.useDays} days`}
            </dd>
          </>
        )}
        {!isBin && (
          <>
            <dt>Order level</dt>
            <dd>
              {store.orderAtKg === null ? 'known with the first day of use' : mass(store.orderAtKg)} (
              {rule.leadDays} days to come, {rule.reserveDays} in reserve)
            </dd>
          </>
        )}
        <dt>Since</dt>
        <dd>
          {when(store.period.fromAt)}: {mass(store.period.openGrams / 1000)} +{' '}
          {mass(store.period.inGrams / 1000)} in − {mass(store.period.outGrams / 1000)} out
          {store.period.adjustedGrams !== 0 && `, ${difference(store.period.adjustedGrams / 1000)} adjusted`}
        </dd>
        {measured !== null && (
          <>
            <dt>Measured</dt>
            <dd className={store.loss === 'beyond' && !measured.booked ? 'sk-warn' : undefined}>
              {when(measured.at)}, {measured.how}: {difference(measured.differenceGrams / 1000)}, limit{' '}
              {mass(measured.limitGrams / 1000)}
              {measured.booked ? ', booked' : ''}
            </dd>
          </>
        )}
        {store.holds.length > 0 && (
          <>
            <dt>Made of</dt>
            <dd>
              {holds
                .slice(0, 5)
                .map((part) => `${mass(part.kg)} ${part.words}`)
                .join('; ')}
              {holds.length > 5 ? `; and ${holds.length - 5} more` : ''}
            </dd>
          </>
        )}
      </dl>
      <div className="row">
        <MayButton book={book} what={store.kind === 'tank' ? 'dipTank' : 'countStore'} onClick={onMeasure}>
          {store.kind === 'tank' ? 'Dip the tank' : 'Enter a count'}
        </MayButton>
        <MayButton book={book} what="setRule" onClick={onRule}>
          Order level and limits
        </MayButton>
      </div>
    </article>
  );
}
