/** Bays: what lies where, by lot and layer, to scale; what may be done with it; and lots against what their batches weighed. */
import { useState } from 'react';
import type { LayerView, PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { NumberField, StockWaiting } from '../stock/parts.tsx';
import { useStock } from '../stock/use-stock.ts';
import { numberOf } from '../stock/words.ts';
import { BagDialog } from './bag-dialog.tsx';
import { BayCard } from './bay-card.tsx';
import { BayKey } from './bay-picture.tsx';
import { LotBalances } from './lot-balances.tsx';
import { morningOf } from './morning.ts';
import { MoveDialog } from './move-dialog.tsx';
import { MovementsPart } from './movements.tsx';
import { StockTakeDialog } from './stock-take-dialog.tsx';
import { WasteDialog } from './waste-dialog.tsx';

export type BayAct =
  | { readonly what: 'stock-take' | 'bags'; readonly place: PlaceView }
  | { readonly what: 'move' | 'waste' | 'rework'; readonly place: PlaceView; readonly layer: LayerView };

export function Tab() {
  const book = useStock();
  const [act, setAct] = useState<BayAct | null>(null);
  const [morningC, setMorningC] = useState('');
  const { view } = book;
  if (view === null || view.yard === null) return <StockWaiting book={book} />;
  const close = () => setAct(null);
  const morning = (layer: LayerView) => morningOf(layer, view.mixes, numberOf(morningC));
  return (
    <div className="stack sk">
      {act === null && <Refusal because={book.asked.refusal} onClose={book.asked.clear} />}
      <div className="sk-head">
        <div className="stack">
          <BayKey />
          <p className="soft">
            The oldest lot that may leave is drawn first, and of a lot the layer that was laid first.
          </p>
        </div>
        <div className="sk-morning">
          <NumberField
            label="Next morning, °C"
            value={morningC}
            onChange={setMorningC}
            hint={`empty: like the last one${view.day === null ? '' : `, ${view.day.startC} °C`}`}
          />
        </div>
      </div>
      <div className="sk-bays">
        {view.places.map((place) => (
          <BayCard key={place.place} place={place} book={book} morning={morning} onAct={setAct} />
        ))}
      </div>
      <p className="soft">
        Temperature, solvent lost and how it will work on the next morning are by a teaching model: they plan
        the work and judge no lot. A spade in the heap decides.
      </p>
      <LotBalances lots={view.lots} />
      <MovementsPart book={book} movements={view.movements} places={view.places} />
      {act?.what === 'stock-take' && <StockTakeDialog book={book} place={act.place} onClose={close} />}
      {act?.what === 'bags' && <BagDialog book={book} place={act.place} onClose={close} />}
      {act?.what === 'move' && (
        <MoveDialog book={book} places={view.places} place={act.place} layer={act.layer} onClose={close} />
      )}
      {(act?.what === 'waste' || act?.what === 'rework') && (
        <WasteDialog
          book={book}
          place={act.place}
          layer={act.layer}
          rework={act.what === 'rework'}
          onClose={close}
        />
      )}
    </div>
  );
}
