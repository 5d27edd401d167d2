/** A delivery into a tank: received by ticket, confirmed by looking at ticket and sample, ended when uncoupled. */
import { type FormEvent, useId, useState } from 'react';
import type { TankView } from '../../machines/line/view.types.ts';
import { formatKg } from '../format/format.ts';
import { useLedger } from '../live/ledger.ts';
import { useSource } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { type Giving, useGive } from './use-give.ts';

type Product = TankView['id'];
const PRODUCTS: readonly Product[] = ['emulsion', 'cutback'];

export function ProductField({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: Product | '';
  readonly onChange: (product: Product) => void;
}) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value as Product)}>
        <option value="" disabled>
          choose
        </option>
        {PRODUCTS.map((product) => (
          <option key={product} value={product}>
            {product}
          </option>
        ))}
      </select>
    </div>
  );
}

function Receive({ tank, giving }: { readonly tank: Product; readonly giving: Giving }) {
  const [product, setProduct] = useState<Product | ''>('');
  const [kg, setKg] = useState('');
  const [ticket, setTicket] = useState('');
  const [missing, setMissing] = useState('');
  const id = useId();
  const stock = useLedger('stock');
  const { barred } = useSource();
  /** Papers the yard has entered already: one tap instead of typing them again. A replay has none of its own. */
  const announced = (barred === null ? (stock.view?.materials.deliveries ?? []) : []).filter(
    (one) => one.state === 'announced' && one.store === `tank:${tank}`,
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const massKg = Number(kg.replace(',', '.').replaceAll(' ', ''));
    if (product === '') setMissing('Choose what the ticket says was loaded.');
    else if (!(massKg >= 100 && massKg <= 30_000)) setMissing('Write the mass in kg, from 100 to 30 000.');
    else if (ticket.trim().length < 2) setMissing('Write the number of the ticket.');
    else {
      setMissing('');
      void giving.give(
        { do: 'receiveDelivery', tank, product, kg: massKg, ticket: ticket.trim() },
        `Delivery ${ticket.trim()} into the ${tank} tank has begun.`,
      );
    }
  };
  return (
    <form className="stack" onSubmit={submit} noValidate>
      {announced.length > 0 && (
        <div className="row">
          <span>Entered in the yard:</span>
          {announced.map((one) => (
            <button
              key={one.id}
              type="button"
              className="button"
              onClick={() => {
                setKg(String(one.ticketGrams / 1000));
                setTicket(one.ticket);
              }}
            >
              {one.ticket}, {formatKg(one.ticketGrams / 1000)} kg
            </button>
          ))}
        </div>
      )}
      <div className="form-row">
        <ProductField label="What the ticket says" value={product} onChange={setProduct} />
        <div className="field">
          <label htmlFor={`${id}-k`}>Mass, kg</label>
          <input
            id={`${id}-k`}
            type="text"
            inputMode="numeric"
            maxLength={8}
            value={kg}
            onChange={(event) => setKg(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-t`}>Ticket number</label>
          <input
            id={`${id}-t`}
            type="text"
            maxLength={40}
            value={ticket}
            onChange={(event) => setTicket(event.target.value)}
          />
        </div>
      </div>
      {missing !== '' && <p className="warn-words">{missing}</p>}
      <button type="submit" className="button" data-barred={giving.against('receiveDelivery').length > 0}>
        Begin the delivery
      </button>
    </form>
  );
}

function UnderWay({ tank, giving }: { readonly tank: TankView; readonly giving: Giving }) {
  const [product, setProduct] = useState<Product | ''>('');
  const confirm = () => {
    if (product === '') giving.explain(['Choose what ticket and sample show it to be.']);
    else
      void giving.give(
        { do: 'confirmDelivery', tank: tank.id, product },
        `Confirmed: ${product} is going into the ${tank.id} tank.`,
      );
  };
  return (
    <div className="stack">
      {tank.delivery?.confirmedBy === '' && (
        <div className="form-row">
          <ProductField label="What ticket and sample show" value={product} onChange={setProduct} />
          <button
            type="button"
            className="button primary"
            data-barred={giving.against('confirmDelivery').length > 0}
            onClick={confirm}
          >
            {tank.id === 'cutback' ? 'Confirm as the second person' : 'Confirm what it is'}
          </button>
        </div>
      )}
      <button
        type="button"
        className="button"
        data-barred={giving.against('endDelivery').length > 0}
        onClick={() => void giving.give({ do: 'endDelivery', tank: tank.id }, 'Delivery ended.')}
      >
        Uncoupled: end the delivery
      </button>
    </div>
  );
}

export function Delivery({ tank }: { readonly tank: TankView }) {
  const giving = useGive();
  return (
    <>
      <p className="hazard">
        <Mark shape="triangle" />
        <span>
          Look at ticket and sample before the hose is coupled. Earth the truck, no flame or smoking near the
          vent, stand upwind. {tank.id === 'cutback' && 'No water into hot binder: it foams over. '}
          Cutback in the emulsion tank would meet the dryer flame as if it could not burn.
        </span>
      </p>
      <Refusal because={giving.refusal} onClose={giving.clear} />
      {tank.delivery === null ? (
        <Receive tank={tank.id} giving={giving} />
      ) : (
        <UnderWay tank={tank} giving={giving} />
      )}
    </>
  );
}
