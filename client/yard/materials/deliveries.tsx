/** Deliveries, newest first: ticket, mass, who confirmed at the tank what it is, what is left, until when it keeps. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { MaterialsView } from '../../../machines/yard/stock/views/materials.ts';
import { usePersonName } from '../../live/people.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import {
  AskDialog,
  DateField,
  MayButton,
  NumberField,
  needNumbers,
  ReasonField,
  Scroll,
  TextField,
} from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf, when } from '../stock/words.ts';

type Delivery = MaterialsView['deliveries'][number];

const STATE: { readonly [S in Delivery['state']]: Shape } = {
  announced: 'ring',
  'being pumped': 'diamond',
  received: 'check',
  refused: 'triangle',
  cancelled: 'square',
};

const isBinder = (one: Delivery): boolean => one.material === 'emulsion' || one.material === 'cutback';

/** A new worksheet of the lab on this very delivery. */
const sheetPath = (one: Delivery): string =>
  `/lab/worksheets/new?${new URLSearchParams({
    kind: 'delivery',
    id: one.id,
    sheet: isBinder(one) ? 'binder-delivery' : 'aggregate',
  })}`;

const identity = (one: Delivery, nameOf: (id: string) => string): string => {
  if (!isBinder(one)) return '';
  if (one.confirmed === null)
    return one.state === 'received' ? 'pumped without a confirmation' : 'to be confirmed at the tank';
  const wrong = one.confirmed.product !== one.store.slice(5);
  return `${one.confirmed.product}${wrong ? ', the wrong one for this tank' : ''}, by ${nameOf(one.confirmed.by.person)}, ${when(one.confirmed.at)}`;
};

function CorrectDialog({
  book,
  one,
  onClose,
}: {
  readonly book: StockHere;
  readonly one: Delivery;
  readonly onClose: () => void;
}) {
  const grams = one.state === 'received' ? one.receivedGrams : one.ticketGrams;
  const [kg, setKg] = useState(String(grams / 1000));
  const [ticket, setTicket] = useState(one.ticket);
  const [keeps, setKeeps] = useState(one.keepsUntil ?? '');
  const [reason, setReason] = useState('');
  const go = async (): Promise<boolean> => {
    if (!needNumbers(book, [[numberOf(kg), 'Write the mass in kg.']])) return false;
    return book.put(
      {
        do: 'correctDelivery',
        delivery: one.id,
        kg: numberOf(kg),
        ticket,
        keepsUntil: keeps.trim() === '' ? null : keeps.trim(),
        reason,
      },
      `${one.id} corrected.`,
    );
  };
  const cancel = async () => {
    if (await book.put({ do: 'cancelDelivery', delivery: one.id, reason }, `${one.id} cancelled.`)) onClose();
  };
  return (
    <AskDialog title={`Correct ${one.id}`} go="Correct it" wide book={book} onGo={go} onClose={onClose}>
      <p className="soft">What it was stays in the record beside what it is now.</p>
      <div className="sk-fields">
        <NumberField label="Mass, kg" value={kg} onChange={setKg} />
        <TextField label="Ticket number" value={ticket} onChange={setTicket} max={40} />
        <DateField label="Use by" value={keeps} onChange={setKeeps} hint="empty: it does not spoil" />
      </div>
      <ReasonField value={reason} onChange={setReason} />
      <div>
        <button type="button" className="button danger" onClick={() => void cancel()}>
          Cancel this delivery
        </button>
      </div>
    </AskDialog>
  );
}

export function DeliveriesPart({
  book,
  materials,
}: {
  readonly book: StockHere;
  readonly materials: MaterialsView;
}) {
  const [open, setOpen] = useState<Delivery | null>(null);
  const nameOf = usePersonName();
  return (
    <section className="card stack" aria-label="Deliveries">
      <h2>Deliveries</h2>
      {materials.deliveries.length === 0 ? (
        <p className="soft">None has been entered. What the plant began with counts as opening stock.</p>
      ) : (
        <Scroll label="Table of deliveries">
          <table className="sk-table">
            <thead>
              <tr>
                <th scope="col">Delivery</th>
                <th scope="col">State</th>
                <th scope="col">Ticket</th>
                <th scope="col" className="num">
                  Came
                </th>
                <th scope="col" className="num">
                  Left
                </th>
                <th scope="col">What it is, at the tank</th>
                <th scope="col">Tests by the lab</th>
                <th scope="col">Use by</th>
                <th scope="col">Trace</th>
                <th scope="col">
                  <span className="hidden-words">Correct</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {materials.deliveries.map((one) => (
                <tr key={one.id}>
                  <th scope="row" className="num">
                    {one.id}
                    <br />
                    <span className="soft">
                      {one.material}, {when(one.at)}
                    </span>
                  </th>
                  <td>
                    <span className="sk-state">
                      <Mark shape={STATE[one.state]} />
                      {one.state}
                    </span>
                  </td>
                  <td>
                    {one.ticket}
                    {one.supplier !== '' && <span className="soft"> {one.supplier}</span>}
                  </td>
                  <td className="num">{mass((one.receivedGrams || one.ticketGrams) / 1000)}</td>
                  <td className="num">{mass(one.leftKg)}</td>
                  <td>{identity(one, nameOf)}</td>
                  <td>
                    {one.tests.map((test) => (
                      <Link
                        key={test.worksheet}
                        href={`/lab/worksheets/${test.worksheet}`}
                        className="sk-test"
                      >
                        {test.words}
                      </Link>
                    ))}
                    {one.material !== 'anti-strip' && one.state !== 'cancelled' && (
                      <Link href={sheetPath(one)} className="sk-test">
                        {one.tests.length === 0 ? 'not tested: open a sheet' : 'another sheet'}
                      </Link>
                    )}
                  </td>
                  <td className="num">{one.keepsUntil === null ? '–' : when(one.keepsUntil)}</td>
                  <td>
                    {one.receivedGrams > 0 && (
                      <Link href={`/yard/trace?kind=delivery&id=${one.id}`} className="sk-test">
                        where it went
                      </Link>
                    )}
                  </td>
                  <td>
                    {one.state !== 'cancelled' && (
                      <MayButton book={book} what="correctDelivery" onClick={() => setOpen(one)}>
                        Correct
                      </MayButton>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
      {open !== null && <CorrectDialog book={book} one={open} onClose={() => setOpen(null)} />}
    </section>
  );
}
