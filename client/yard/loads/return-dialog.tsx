/** What comes back of a load: into a bay as its own layer that keeps its lots, or to waste. */
import { useState } from 'react';
import type { PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import type { LoadView } from '../../../machines/yard/stock/views/loads.ts';
import { AskDialog, NumberField, needNumbers, ReasonField, SelectField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf } from '../stock/words.ts';

export function ReturnDialog({
  book,
  load,
  places,
  onClose,
}: {
  readonly book: StockHere;
  readonly load: LoadView;
  readonly places: readonly PlaceView[];
  readonly onClose: () => void;
}) {
  const [to, setTo] = useState('');
  const [kg, setKg] = useState(String(load.aboardKg));
  const [reason, setReason] = useState('');
  const go = async (): Promise<boolean> => {
    if (to === '') {
      book.asked.explain(['Choose where it goes: a bay, or waste.']);
      return false;
    }
    return (
      needNumbers(book, [[numberOf(kg), 'Write how many kilograms came back.']]) &&
      book.put(
        {
          do: 'returnMix',
          load: load.id,
          to: to as PlaceView['place'] | 'waste',
          kg: numberOf(kg),
          reason,
        },
        to === 'waste' ? 'Wasted.' : 'Brought back.',
      )
    );
  };
  return (
    <AskDialog title={`What comes back of ${load.id}`} go="Book it" book={book} onGo={go} onClose={onClose}>
      <p>{mass(load.aboardKg)} is aboard. It keeps its lots and lies as a layer of its own.</p>
      <SelectField
        label="Where it goes"
        value={to}
        onChange={setTo}
        choices={[
          ...places
            .filter((one) => one.place !== 'bags')
            .map((one) => [one.place, `${one.name}, ${mass(one.kg)} there`] as const),
          ['waste', 'waste'],
        ]}
      />
      <NumberField label="Kilograms" value={kg} onChange={setKg} />
      <ReasonField value={reason} onChange={setReason} />
    </AskDialog>
  );
}
