/** Mix of one lot thrown away, or worked over where it lies. */
import { useState } from 'react';
import type { LayerView, PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { AskDialog, NumberField, needNumbers, ReasonField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf } from '../stock/words.ts';

export function WasteDialog({
  book,
  place,
  layer,
  rework,
  onClose,
}: {
  readonly book: StockHere;
  readonly place: PlaceView;
  readonly layer: LayerView;
  readonly rework: boolean;
  readonly onClose: () => void;
}) {
  const [kg, setKg] = useState(String(layer.kg));
  const [reason, setReason] = useState('');
  const { lot } = layer;
  const go = async (): Promise<boolean> =>
    rework
      ? book.put({ do: 'reworkLot', place: place.place, lot, reason }, `Lot ${lot} is noted as worked over.`)
      : needNumbers(book, [[numberOf(kg), 'Write how many kilograms go to waste.']]) &&
        book.put({ do: 'wasteMix', from: place.place, lot, kg: numberOf(kg), reason }, `Lot ${lot}: wasted.`);
  return (
    <AskDialog
      title={rework ? `Lot ${lot} worked over` : `Lot ${lot} to waste`}
      go={rework ? 'Note it' : 'Throw it away'}
      danger={!rework}
      book={book}
      onGo={go}
      onClose={onClose}
    >
      {rework ? (
        <p>
          It stays where it lies and keeps its lot; it may leave only when the lab has tested it again and
          accepted or released it. Say what was done to it.
        </p>
      ) : (
        <>
          <p>
            {mass(layer.kg)} of it lie in this layer of {place.name}; the lab says: {layer.lab}. Bituminous
            waste goes where your licence says.
          </p>
          <NumberField label="Kilograms" value={kg} onChange={setKg} />
        </>
      )}
      <ReasonField value={reason} onChange={setReason} />
    </AskDialog>
  );
}
