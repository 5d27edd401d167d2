/** When to order a material, what loss is allowed, and how long it keeps. */
import { useState } from 'react';
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { AskDialog, NumberField, needNumbers, ReasonField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { numberOf } from '../stock/words.ts';
import { storeTitle } from './names.ts';

export function RuleDialog({
  book,
  store,
  onClose,
}: {
  readonly book: StockHere;
  readonly store: StoreView;
  readonly onClose: () => void;
}) {
  const { rule } = store;
  const [lead, setLead] = useState(String(rule.leadDays));
  const [reserve, setReserve] = useState(String(rule.reserveDays));
  const [order, setOrder] = useState(String(rule.orderKg));
  const [loss, setLoss] = useState(String(rule.lossPct));
  const [keeps, setKeeps] = useState(rule.keepsDays === null ? '' : String(rule.keepsDays));
  const [reason, setReason] = useState('');
  const go = async (): Promise<boolean> => {
    const keepsDays = keeps.trim() === '' ? null : numberOf(keeps);
    const ready = needNumbers(book, [
      [numberOf(lead), 'Write how many days a delivery takes to come.'],
      [numberOf(reserve), 'Write how many days of use are kept in reserve.'],
      [numberOf(order), 'Write how many kilograms are ordered at a time.'],
      [numberOf(loss), 'Write what loss is allowed, % of what was weighed out.'],
      [keepsDays ?? 0, 'Write how many days it keeps, or leave that empty.'],
    ]);
    if (!ready) return false;
    return book.put(
      {
        do: 'setRule',
        store: store.id,
        leadDays: numberOf(lead),
        reserveDays: numberOf(reserve),
        orderKg: numberOf(order),
        lossPct: numberOf(loss),
        keepsDays,
        reason,
      },
      'Order level and limits set.',
    );
  };
  return (
    <AskDialog
      title={`Order level and limits: ${storeTitle(store.id, store.material)}`}
      go="Set them"
      wide
      book={book}
      onGo={go}
      onClose={onClose}
    >
      <p className="soft">
        The order level is the use of a day of work times the days a delivery takes and the days in reserve.
        What it begins with is common practice without a source, unless your supplier or records say
        otherwise.
      </p>
      <div className="sk-fields">
        <NumberField label="Days until it comes" value={lead} onChange={setLead} />
        <NumberField label="Days in reserve" value={reserve} onChange={setReserve} />
        <NumberField label="Ordered at a time, kg" value={order} onChange={setOrder} />
        <NumberField
          label="Loss allowed, %"
          value={loss}
          onChange={setLoss}
          hint="of what was weighed out; batch scales are good to 0.5 % (Iowa IM 514)"
        />
        <NumberField label="Keeps, days" value={keeps} onChange={setKeeps} hint="empty: it does not spoil" />
      </div>
      <ReasonField value={reason} onChange={setReason} />
    </AskDialog>
  );
}
