/** One bay, or the stand of bags: picture, level, its lots from the newest layer down, and what can be done. */
import type { LayerView, PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import type { Workability } from '../../../machines/yard/weathering/workability.ts';
import { keepUnits } from '../../format/format.ts';
import { Mark } from '../../parts/mark.tsx';
import { MayButton } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { days, mass, STANDING, standingWords, when } from '../stock/words.ts';
import { BayPicture } from './bay-picture.tsx';
import type { BayAct } from './tab.tsx';

const degrees = (tempC: number): string => `${String(Math.round(tempC)).replace('-', '−')} °C`;

const ORIGIN: { readonly [O in LayerView['origin']]: string } = {
  made: 'laid by the line',
  returned: 'came back with',
  moved: 'moved from',
  bagged: 'filled from',
  reversed: 'put back by',
};

const cameFrom = ({ origin, from, laidFrom }: LayerView): string => {
  const source = origin === 'made' ? '' : ` ${from.replace(':', ' ')}`;
  return `${ORIGIN[origin]}${source}, ${when(laidFrom)}`;
};

const shelf = ({ ageDays, shelfDays }: LayerView): string =>
  ageDays > shelfDays
    ? `${days(ageDays)} old: its ${shelfDays} days are over, have it tested first`
    : `${days(ageDays)} old of ${shelfDays}`;

function LotRow({
  layer,
  place,
  book,
  morning,
  onAct,
}: {
  readonly layer: LayerView;
  readonly place: PlaceView;
  readonly book: StockHere;
  readonly morning: (layer: LayerView) => Workability | null;
  readonly onAct: (act: BayAct) => void;
}) {
  const { weathered, standing } = layer;
  const tomorrow = morning(layer);
  return (
    <li>
      <span className="sk-state" data-standing={standing}>
        <Mark shape={STANDING[standing].shape} />
      </span>
      <span>
        <strong className="num">{layer.lot}</strong> {layer.mixName}
        <br />
        <span className="sk-state" data-standing={standing}>
          {standingWords(standing, layer.lab)}
        </span>
        {layer.reworked > 0 && <span className="soft">, worked over {layer.reworked}×</span>}
      </span>
      <strong className="num">
        {mass(layer.kg)}
        {layer.bags > 0 && `, ${layer.bags} bags`}
      </strong>
      <span className="sk-more">
        {cameFrom(layer)};{' '}
        <span className={layer.ageDays > layer.shelfDays ? 'sk-warn' : undefined}>{shelf(layer)}</span>
        {weathered !== null &&
          keepUnits(
            `; about ${Math.round(weathered.tempC)} °C${layer.family === 'cutback' ? `, ${weathered.solventLostPct} % of its solvent gone` : ''}${weathered.rainMm > 0 ? `, ${weathered.rainMm} mm of rain on it` : ''}`,
          )}
        {tomorrow !== null && (
          <>
            <br />
            Morning at {degrees(tomorrow.atC)}:{' '}
            <span className={tomorrow.word === 'workable' ? undefined : 'sk-warn'}>{tomorrow.word}</span>,{' '}
            {keepUnits(tomorrow.why)}
          </>
        )}
      </span>
      <span className="sk-more row">
        {place.place !== 'bags' && (
          <MayButton book={book} what="moveMix" onClick={() => onAct({ what: 'move', place, layer })}>
            Move
          </MayButton>
        )}
        <MayButton book={book} what="wasteMix" onClick={() => onAct({ what: 'waste', place, layer })}>
          To waste
        </MayButton>
        {(standing === 'rejected' || standing === 'on hold') && (
          <MayButton book={book} what="reworkLot" onClick={() => onAct({ what: 'rework', place, layer })}>
            Worked over
          </MayButton>
        )}
      </span>
    </li>
  );
}

export function BayCard({
  place,
  book,
  morning,
  onAct,
}: {
  readonly place: PlaceView;
  readonly book: StockHere;
  readonly morning: (layer: LayerView) => Workability | null;
  readonly onAct: (act: BayAct) => void;
}) {
  const isBags = place.place === 'bags';
  return (
    <article className="card stack">
      <div className="sk-head">
        <h2>{place.name}</h2>
        <span className="num">
          <strong>{mass(place.kg)}</strong>
          {place.capacityT !== null && ` of ${place.capacityT} t`}
        </span>
      </div>
      <BayPicture place={place} />
      {place.heap?.over === true && (
        <p className="sk-warn">By the books the heap would stand out of the bay: take stock.</p>
      )}
      {place.layers.length === 0 ? (
        <p className="soft">{isBags ? 'No bags are filled.' : 'Nothing lies here.'}</p>
      ) : (
        <ul className="sk-lots">
          {[...place.layers].reverse().map((layer) => (
            <LotRow key={layer.n} layer={layer} place={place} book={book} morning={morning} onAct={onAct} />
          ))}
        </ul>
      )}
      {place.layers.length > 0 && (
        <div className="row">
          <MayButton book={book} what="stockTake" onClick={() => onAct({ what: 'stock-take', place })}>
            Take stock
          </MayButton>
          {!isBags && (
            <MayButton book={book} what="fillBags" onClick={() => onAct({ what: 'bags', place })}>
              Fill bags
            </MayButton>
          )}
        </div>
      )}
    </article>
  );
}
