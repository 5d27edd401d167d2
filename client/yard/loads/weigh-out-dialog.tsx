/** A load on the weighbridge: empty, full, net; and which lots are drawn for it. */
import { useState } from 'react';
import type { LoadView } from '../../../machines/yard/stock/views/loads.ts';
import { AskDialog, NumberField, needNumbers } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { difference, mass, numberOf } from '../stock/words.ts';

export function WeighOutDialog({
  book,
  load,
  onClose,
}: {
  readonly book: StockHere;
  readonly load: LoadView;
  readonly onClose: () => void;
}) {
  const [tare, setTare] = useState('');
  const [gross, setGross] = useState('');
  const [bags, setBags] = useState('');
  const [tareKg, grossKg] = [numberOf(tare), numberOf(gross)];
  const netKg = grossKg - tareKg;
  const wantedKg = load.wantedGrams / 1000;
  const isBags = load.as === 'bags';
  const go = async (): Promise<boolean> => {
    const ready = needNumbers(book, [
      [tareKg, 'Write what the empty vehicle weighs.'],
      [grossKg, 'Write what the full vehicle weighs.'],
      [isBags ? numberOf(bags) : 0, 'Write how many bags were loaded.'],
    ]);
    if (!ready) return false;
    return book.put(
      { do: 'weighOut', load: load.id, tareKg, grossKg, ...(isBags ? { bags: numberOf(bags) } : {}) },
      `Load ${load.id} weighed out.`,
    );
  };
  return (
    <AskDialog
      title={`Weigh out ${load.id}`}
      go="Weigh out: it leaves"
      book={book}
      onGo={go}
      onClose={onClose}
    >
      <p>
        {mass(wantedKg)} of {load.mixName} for {load.vehicle}.{' '}
        {load.wouldDraw.length === 0
          ? 'No lot of it may leave just now.'
          : `Draw lot ${load.wouldDraw.join(', then lot ')}: the oldest that may leave first.`}
      </p>
      {load.family === 'cutback' && (
        <p className="soft">
          Its vapour burns: engine off while loading, no smoking, extinguisher on the vehicle.
        </p>
      )}
      <div className="sk-fields">
        <NumberField label="Empty (tare), kg" value={tare} onChange={setTare} />
        <NumberField label="Full (gross), kg" value={gross} onChange={setGross} />
        {isBags && <NumberField label="Bags loaded" value={bags} onChange={setBags} />}
      </div>
      <ul className="sk-working" aria-live="polite">
        {Number.isFinite(netKg) ? (
          <>
            <li>
              <span>Net</span>
              <strong>{mass(netKg)}</strong>
            </li>
            <li>
              <span>Against what is wanted</span>
              <strong>{difference(netKg - wantedKg)}</strong>
            </li>
          </>
        ) : (
          <li className="soft">The net mass is shown as soon as both weights are written.</li>
        )}
      </ul>
    </AskDialog>
  );
}
