/** Mix of one lot moved to another bay. */
import { useState } from 'react';
import type { LayerView, PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { AskDialog, NumberField, needNumbers, ReasonField, SelectField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf } from '../stock/words.ts';

export function MoveDialog({
  book,
  places,
  place,
  layer,
  onClose,
}: {
  readonly book: StockHere;
  readonly places: readonly PlaceView[];
  readonly place: PlaceView;
  readonly layer: LayerView;
  readonly onClose: () => void;
}) {
  const [to, setTo] = useState('');
  const [kg, setKg] = useState(String(layer.kg));
  const [reason, setReason] = useState('');
  const go = async (): Promise<boolean> => {
    if (to === '') {
      book.asked.explain(['Choose the bay it goes to.']);
      return false;
    }
    return (
      needNumbers(book, [[numberOf(kg), 'Write how many kilograms are moved.']]) &&
      book.put(
        {
          do: 'moveMix',
          from: place.place,
          to: to as PlaceView['place'],
          lot: layer.lot,
          kg: numberOf(kg),
          reason,
        },
        `Lot ${layer.lot} moved.`,
      )
    );
  };
  return (
    <AskDialog title={`Move lot ${layer.lot}`} go="Move it" book={book} onGo={go} onClose={onClose}>
      <p>
        {mass(layer.kg)} of it lie in this layer of {place.name}. It keeps its lot wherever it lies.
      </p>
      <SelectField
        label="To"
        value={to}
        onChange={setTo}
        choices={places
          .filter((one) => one.place !== place.place && one.place !== 'bags')
          .map((one) => [one.place, `${one.name}, ${mass(one.kg)} of ${one.capacityT} t`])}
      />
      <NumberField label="Kilograms" value={kg} onChange={setKg} />
      <ReasonField value={reason} onChange={setReason} />
    </AskDialog>
  );
}
