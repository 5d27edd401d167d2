/** What needs a person: orders due, losses beyond their limit, use no paper covers, and what expires. */
import type { MaterialsView, StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { Mark } from '../../parts/mark.tsx';
import { days, difference, mass, when } from '../stock/words.ts';
import { storeTitle } from './names.ts';

const orderWords = (store: StoreView): string => {
  const title = storeTitle(store.id, store.material);
  const left = store.daysLeft === null ? '' : `, ${days(store.daysLeft)} of work`;
  return store.order === 'too late'
    ? `${title}: ${mass(store.kg)} left${left}, less than the ${store.rule.leadDays} days a delivery takes. Order ${mass(store.rule.orderKg)} now and plan for the gap.`
    : `${title}: ${mass(store.kg)} left${left}. Order ${mass(store.rule.orderKg)}: it takes ${store.rule.leadDays} days to come.`;
};

const lossWords = ({ id, material, measured }: StoreView): string =>
  measured === null
    ? ''
    : `${storeTitle(id, material)}: measured ${when(measured.at)}, ${difference(measured.differenceGrams / 1000)} against the books; ${mass(measured.limitGrams / 1000)} can be explained. Measure again, then look for what is missing.`;

export function NeedsPart({ materials }: { readonly materials: MaterialsView }) {
  const { stores, expiry } = materials;
  const needs = [
    ...stores.filter((one) => one.order === 'too late' || one.order === 'order now').map(orderWords),
    ...stores.filter((one) => one.loss === 'beyond' && one.measured?.booked === false).map(lossWords),
    ...stores
      .filter((one) => one.uncoveredKg > 0)
      .map(
        (one) =>
          `${storeTitle(one.id, one.material)}: ${mass(one.uncoveredKg)} was used that no delivery covers. Enter the missing ticket, then count and adjust.`,
      ),
    ...expiry
      .filter((one) => one.word !== 'good')
      .map((one) =>
        one.word === 'expired'
          ? `${one.delivery} (${one.material}, ${mass(one.kg)} left) expired on ${when(one.keepsUntil)}: have it tested before it is used.`
          : `${one.delivery} (${one.material}, ${mass(one.kg)} left) is to be used by ${when(one.keepsUntil)}, in ${days(one.daysLeft)}.`,
      ),
  ];
  return (
    <section className="card stack" aria-label="What needs a person">
      <h2>{needs.length === 0 ? 'Nothing needs you here' : 'Needs a person'}</h2>
      {needs.length === 0 ? (
        <p className="soft">
          Nothing is near its order level, nothing expires soon, and nothing measured is off beyond its limit.
        </p>
      ) : (
        <ul className="sk-needs">
          {needs.map((words) => (
            <li key={words}>
              <Mark shape="triangle" />
              <span>{words}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
