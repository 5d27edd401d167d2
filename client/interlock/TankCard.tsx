/** One binder tank: what it is known to hold, what stands against heating it, and the delivery into it. */
import type { TankView } from '../../machines/line/view.types.ts';
import { keepUnits, shiftClock } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, STANDING_SHAPE, STANDING_WORDS } from '../parts/mark.tsx';
import { Delivery } from './Delivery.tsx';
import { IdentifyForm } from './IdentifyForm.tsx';

const NAME = { emulsion: 'Emulsion tank', cutback: 'Cutback tank' } as const;
const KIND_WORDS: { readonly [K in TankView['kind']]: string } = {
  'thermal-oil': 'heated by thermal oil',
  electric: 'heated electrically',
  'fire-tube': 'heated by a fire tube: the strictest rules',
};
const IDENTITY = {
  confirmed: { shape: 'dot', tone: 'met' },
  'not confirmed': { shape: 'ring', tone: 'unmet' },
  'wrong product': { shape: 'triangle', tone: 'alarm' },
} as const;

function Figures({ tank }: { readonly tank: TankView }) {
  return (
    <dl className="lot-more">
      <div>
        <dt>Product above the heating surface</dt>
        <dd className="num">
          {tank.coverMm} mm, at least {tank.coverNeededMm} mm to heat
        </dd>
      </div>
      <div>
        <dt>Vapour at the vents</dt>
        <dd className="num">
          {tank.ventLelPct.toFixed(1)} % LEL, no heat from {tank.ventLimitLelPct} %
        </dd>
      </div>
      <div>
        <dt>Free water at the bottom</dt>
        <dd className="num">{tank.waterMm === null ? 'not measured' : `${tank.waterMm} mm`}</dd>
      </div>
    </dl>
  );
}

export function TankCard({ tank }: { readonly tank: TankView }) {
  const startsAt = useLive((live) => live.view?.shift.startsAt ?? '00:00');
  const { shape, tone } = IDENTITY[tank.identity];
  return (
    <section className="card stack tank-card" aria-label={NAME[tank.id]}>
      <div className="lot-head">
        <h2>{NAME[tank.id]}</h2>
        <p className="soft">{KIND_WORDS[tank.kind]}</p>
      </div>
      <p className={`identity ${tone}`}>
        <Mark shape={shape} />
        <strong>Contents {tank.identity}</strong>
        <span>{tank.identityText}</span>
      </p>
      <Figures tank={tank} />
      <div className="stack">
        <h3>{tank.mayHeat ? 'It may be heated' : 'It may not be heated now'}</h3>
        <ul>
          {tank.heat.map((line) => (
            <li key={line.id} className={`check-line permissive ${line.standing}`}>
              <Mark shape={STANDING_SHAPE[line.standing]} />
              <span className="check-main">
                <span>
                  {keepUnits(line.text)}
                  <span className="hidden-words">, {STANDING_WORDS[line.standing]}</span>
                </span>
                <span className="check-value num">{line.value}</span>
              </span>
              <span className="check-id">{line.id}</span>
              {line.standing !== 'met' && line.cause !== '' && (
                <span className="check-cause">{line.cause}</span>
              )}
            </li>
          ))}
        </ul>
      </div>
      <div className="stack">
        <h3>Delivery</h3>
        {tank.delivery !== null && (
          <p>
            Ticket {tank.delivery.ticket}: {tank.delivery.kg} kg of {tank.delivery.product}, received by{' '}
            {tank.delivery.by} at {shiftClock(startsAt, tank.delivery.sinceMs, false)}.{' '}
            {tank.delivery.confirmedBy === ''
              ? 'What it is has not been confirmed.'
              : `Confirmed by ${tank.delivery.confirmedBy}.`}
          </p>
        )}
        <Delivery tank={tank} />
      </div>
      <IdentifyForm tank={tank.id} />
    </section>
  );
}
