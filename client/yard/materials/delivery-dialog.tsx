/** A delivery entered by its ticket. Binder is announced here and pumped from the Interlock page, tied by its ticket. */
import { useState } from 'react';
import type { StockView } from '../../../machines/yard/stock/view.ts';
import { Mark } from '../../parts/mark.tsx';
import { AskDialog, DateField, NumberField, needNumbers, SelectField, TextField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { numberOf } from '../stock/words.ts';

type Material = 'emulsion' | 'cutback' | 'aggregate' | 'anti-strip';

export function DeliveryDialog({
  book,
  bins,
  onClose,
}: {
  readonly book: StockHere;
  readonly bins: StockView['bins'];
  readonly onClose: () => void;
}) {
  const [what, setWhat] = useState('');
  const [ticket, setTicket] = useState('');
  const [kg, setKg] = useState('');
  const [supplier, setSupplier] = useState('');
  const [keeps, setKeeps] = useState('');
  const [note, setNote] = useState('');
  const isBinder = what === 'emulsion' || what === 'cutback';
  const spoils = what === 'emulsion' || what === 'anti-strip';
  const go = async (): Promise<boolean> => {
    if (what === '') {
      book.asked.explain(['Choose what came.']);
      return false;
    }
    if (!needNumbers(book, [[numberOf(kg), 'Write the net mass of the ticket in kg.']])) return false;
    if (ticket.trim().length < 2) {
      book.asked.explain(['Write the number of the ticket.']);
      return false;
    }
    const [material, bin] = what.split(':');
    return book.put(
      {
        do: 'registerDelivery',
        material: material as Material,
        ticket: ticket.trim(),
        supplier,
        kg: numberOf(kg),
        note,
        ...(bin === undefined ? {} : { bin: Number(bin) }),
        ...(spoils && keeps.trim() !== '' ? { keepsUntil: keeps.trim() } : {}),
      },
      'Delivery entered.',
    );
  };
  return (
    <AskDialog title="Enter a delivery" go="Enter it" wide book={book} onGo={go} onClose={onClose}>
      <div className="sk-fields">
        <SelectField
          label="What came"
          value={what}
          onChange={setWhat}
          choices={[
            ['emulsion', 'Emulsion'],
            ['cutback', 'Cutback'],
            ...bins.map(({ bin, name }) => [`aggregate:${bin}`, `${name}, on its heap`] as const),
            ['anti-strip', 'Anti-strip additive'],
          ]}
        />
        <TextField label="Ticket number" value={ticket} onChange={setTicket} max={40} />
        <NumberField label="Net mass of the ticket, kg" value={kg} onChange={setKg} />
        <TextField label="Supplier" value={supplier} onChange={setSupplier} />
        {spoils && (
          <DateField
            label="Use by"
            value={keeps}
            onChange={setKeeps}
            hint="as on the papers; empty: by the rule of its store"
          />
        )}
        <TextField label="Remark" value={note} onChange={setNote} max={300} wide />
      </div>
      {isBinder && (
        <p className="sk-caution">
          <Mark shape="triangle" />
          <span>
            This only enters its papers. The binder goes into the tank by a delivery on the{' '}
            <strong>Interlock</strong> page under the same ticket, where ticket and sample are looked at
            before the hose is coupled
            {what === 'cutback' ? ' and a second person confirms that it is cutback' : ''}.
          </span>
        </p>
      )}
    </AskDialog>
  );
}
