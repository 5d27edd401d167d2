/** Makes an order for mix from a patch list: which mix, by when, rounded how. */
import { type FormEvent, useId, useState } from 'react';
import { orderSize } from '../../../machines/yard/patches/orders.ts';
import type { PatchList } from '../../../machines/yard/patches/patch.types.ts';
import { addDays } from '../../../machines/yard/patches/schedule/days.ts';
import { sumsByRoute } from '../../../machines/yard/patches/take-off.ts';
import type { PatchesView } from '../../../machines/yard/patches/view.ts';
import { plural } from '../../format/format.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { PatchesHere } from './use-patches.ts';
import { mass, routeName } from './words.ts';

const ALL = '*';
const DAYS_AHEAD = 3;

export function OrderDialog({
  list,
  view,
  book,
  onClose,
}: {
  readonly list: PatchList;
  readonly view: PatchesView;
  readonly book: PatchesHere;
  readonly onClose: () => void;
}) {
  const today = view.at.slice(0, 10);
  // The mix that does not burn is offered first.
  const first = view.mixes.find(({ family }) => family === 'emulsion') ?? view.mixes[0];
  const [mixId, setMix] = useState(first?.id ?? '');
  const [route, setRoute] = useState(ALL);
  const [neededBy, setNeededBy] = useState(addDays(today, DAYS_AHEAD));
  const [rounding, setRounding] = useState<'batches' | 'lots'>('batches');
  const [useStock, setUseStock] = useState(true);
  const id = useId();
  const routes = sumsByRoute(list.patches).filter(({ sum }) => sum.patches > 0);
  const mix = view.mixes.find((one) => one.id === mixId);
  const needKg = route === ALL ? list.sum.mixKg : (routes.find((one) => one.route === route)?.sum.mixKg ?? 0);
  const size = mix === undefined ? null : orderSize(needKg, useStock ? mix.freeKg : 0, rounding, mix);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const done = await book.put(
      {
        do: 'makeOrder',
        lists: [list.id],
        route: route === ALL ? null : route,
        mix: mixId,
        neededBy,
        rounding,
        useStock,
      },
      'The order is made.',
    );
    if (done) onClose();
  };

  return (
    <Dialog title={`Order mix for ${list.name}`} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <div className="field">
          <label htmlFor={`${id}-mix`}>Mix</label>
          <select id={`${id}-mix`} value={mixId} onChange={(event) => setMix(event.target.value)}>
            {view.mixes.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}, version {one.version} ({one.family})
              </option>
            ))}
          </select>
          {view.mixes.length === 0 && (
            <span className="warn-words">No mix is approved: approve a version under Mixes first.</span>
          )}
          {mix?.family === 'cutback' && (
            <span className="soft">
              Cutback burns: no flame, no smoking and no sparks near fresh mix, on the truck and at the hole.
            </span>
          )}
        </div>
        {routes.length > 1 && (
          <div className="field">
            <label htmlFor={`${id}-route`}>Holes</label>
            <select id={`${id}-route`} value={route} onChange={(event) => setRoute(event.target.value)}>
              <option value={ALL}>
                All routes: {plural(list.sum.patches, 'hole')}, {mass(list.sum.mixKg)}
              </option>
              {routes.map((one) => (
                <option key={one.route} value={one.route}>
                  {routeName(one.route)}: {plural(one.sum.patches, 'hole')}, {mass(one.sum.mixKg)}
                </option>
              ))}
            </select>
          </div>
        )}
        <div className="field">
          <label htmlFor={`${id}-day`}>Needed by</label>
          <input
            id={`${id}-day`}
            type="date"
            min={today}
            value={neededBy}
            onChange={(event) => setNeededBy(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-round`}>Rounded up to</label>
          <select
            id={`${id}-round`}
            value={rounding}
            onChange={(event) => setRounding(event.target.value === 'lots' ? 'lots' : 'batches')}
          >
            <option value="batches">whole batches</option>
            <option value="lots">whole lots</option>
          </select>
        </div>
        <label className="check">
          <input
            type="checkbox"
            className="hidden-words"
            checked={useStock}
            onChange={(event) => setUseStock(event.target.checked)}
          />
          <span className="box">
            <Mark shape="check" />
          </span>
          Take what lies free in stock first ({mix === undefined ? '–' : mass(mix.freeKg)} released)
        </label>
        {size !== null && (
          <p className="yp-sum num" role="status">
            {mass(size.needKg)} needed
            {size.fromStockKg > 0 ? `, ${mass(size.fromStockKg)} from stock` : ''}:{' '}
            <strong>
              {size.batches === 0
                ? 'nothing to make'
                : `${plural(size.batches, 'batch', 'batches')}, ${mass(size.makeKg)}, ${plural(size.lots, 'lot')}`}
            </strong>
          </p>
        )}
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button
            type="submit"
            className="button primary"
            data-barred={mix === undefined}
            aria-busy={book.asked.waiting}
          >
            Make the order
          </button>
        </div>
      </form>
    </Dialog>
  );
}
