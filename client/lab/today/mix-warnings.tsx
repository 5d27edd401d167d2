/** Told before the first batch: a mix ordered today that is itself made to what its specification does not allow. */
import { Link } from 'wouter';
import { contradictionsOf } from '../../../machines/lab/judge/index.ts';
import type { LabView } from '../../../machines/lab/view.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { stoneOf } from '../book-like.ts';

/** Of the mixes with these ids, each with what it is made to outside its limits, in words; conditional limits left out. */
const outsideTheirLimits = (view: LabView, mixIds: readonly string[]) =>
  [...new Set(mixIds)].flatMap((id) => {
    const mix = view.mixes.filter((one) => one.id === id).sort((a, b) => b.version - a.version)[0];
    const spec = view.specifications
      .filter((one) => one.id === mix?.specification)
      .sort((a, b) => b.version - a.version)[0];
    if (mix === undefined || spec === undefined) return [];
    const words = contradictionsOf(spec, mix, { absorptionPct: null, gradings: stoneOf(view) })
      .filter(({ kind, limit }) => kind === 'aim' && limit?.when === undefined)
      .map((one) => one.words);
    return words.length === 0 ? [] : [{ mix, words }];
  });

export function MixWarnings({ view }: { readonly view: LabView }) {
  const orders = useLive((live) => live.view?.orders);
  const found = outsideTheirLimits(
    view,
    (orders ?? []).map(({ mix }) => mix),
  );
  if (found.length === 0) return null;
  return (
    <section className="card stack" aria-labelledby="today-mixes">
      <h2 id="today-mixes">Made outside their own limits: these lots will most likely fail</h2>
      {found.map(({ mix, words }) => (
        <div key={mix.id} className="stack">
          <h3>{mix.name}</h3>
          <ul className="departures">
            {words.map((one) => (
              <li key={one}>
                <Mark shape="triangle" />
                {one}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <p className="soft-line">
        The mix and its limits cannot both be right: have one of them changed before it is made.{' '}
        <Link href="/lab/specifications">See all limits</Link>.
      </p>
    </section>
  );
}
