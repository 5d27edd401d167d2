/** A tank dipped: mm and °C in, litres and kilograms out with the working shown, and the books held against it. */
import { useState } from 'react';
import { workOutDip } from '../../../machines/yard/stock/dip.ts';
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { AskDialog, NumberField, needNumbers, ReasonField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { difference, mass, numberOf } from '../stock/words.ts';
import { storeTitle } from './names.ts';

const COLUMN = {
  A: 'ASTM D4311, column A (966 kg/m³ and up)',
  B: 'ASTM D4311, column B (850–965 kg/m³)',
  emulsion: '0.00045 per °C for emulsion, from memory',
} as const;

export function DipDialog({
  book,
  store,
  onClose,
}: {
  readonly book: StockHere;
  readonly store: StoreView;
  readonly onClose: () => void;
}) {
  const [dip, setDip] = useState('');
  const [temp, setTemp] = useState('');
  const [adjust, setAdjust] = useState(false);
  const [reason, setReason] = useState('');
  const tank = store.material === 'emulsion' ? 'emulsion' : 'cutback';
  const [dipMm, tempC] = [numberOf(dip), numberOf(temp)];
  const { shape } = store;
  const worked =
    shape !== null && dipMm >= 0 && Number.isFinite(tempC) ? workOutDip(tank, shape, dipMm, tempC) : null;
  const off = worked === null ? 0 : worked.kg - store.kg;
  const limitKg = worked === null ? 0 : (store.period.outGrams / 1e5) * store.rule.lossPct + worked.readKg;
  const go = async (): Promise<boolean> => {
    const ready = needNumbers(book, [
      [dipMm, 'Write the dip in mm, from the bottom of the tank to the surface.'],
      [tempC, 'Write the temperature of the binder in °C.'],
    ]);
    if (!ready) return false;
    const adjusted = adjust ? { adjustReason: reason } : {};
    return book.put({ do: 'dipTank', tank, dipMm, tempC, ...adjusted }, 'Dip entered.');
  };
  return (
    <AskDialog
      title={`Dip: ${storeTitle(store.id, store.material)}`}
      go={adjust ? 'Enter the dip and adjust the books' : 'Enter the dip'}
      wide
      book={book}
      onGo={go}
      onClose={onClose}
    >
      <p className="soft">
        {tank === 'cutback'
          ? 'Cutback is kept above its flash point: stand upwind of the hatch, no flame, no phone, earthed dip rod, face shield.'
          : 'Gloves and face shield; look for skin or sediment on the rod.'}
      </p>
      <div className="sk-fields">
        <NumberField label="Dip, mm" value={dip} onChange={setDip} hint="bottom of the tank to the surface" />
        <NumberField
          label="Temperature, °C"
          value={temp}
          onChange={setTemp}
          hint="of the binder, at mid depth"
        />
      </div>
      <ul className="sk-working" aria-live="polite">
        {worked === null || shape === null ? (
          <li className="soft">Litres and kilograms are worked out as soon as both are written.</li>
        ) : (
          <>
            <li>
              <span>
                Lying cylinder Ø {shape.diameterM} m × {shape.lengthM} m, dip {dipMm} mm
              </span>
              <strong>{worked.litres.toFixed(0)} L</strong>
            </li>
            <li>
              <span>
                At 15 °C: × {worked.factor.toFixed(4)} ({COLUMN[worked.column]})
              </span>
              <strong>{worked.litresAt15.toFixed(0)} L</strong>
            </li>
            <li>
              <span>× {(shape.densityAt15KgM3 / 1000).toFixed(3)} kg/L at 15 °C</span>
              <strong>{worked.kg.toFixed(0)} kg</strong>
            </li>
            <li>
              <span>The books say</span>
              <strong>{store.kg.toFixed(0)} kg</strong>
            </li>
            <li className={Math.abs(off) > limitKg ? 'sk-warn' : undefined}>
              <span>
                Difference; up to {mass(limitKg)} is explained by {store.rule.lossPct} % of what was weighed
                out and 3 mm of dip ({mass(worked.readKg)})
              </span>
              <strong>{difference(off)}</strong>
            </li>
          </>
        )}
      </ul>
      <label className="check">
        <input
          type="checkbox"
          className="hidden-words"
          checked={adjust}
          onChange={(event) => setAdjust(event.target.checked)}
        />
        <span className="box">
          <svg className="mark" viewBox="0 0 14 14" aria-hidden="true">
            <path d="M1.5 7.5 5.5 11.5 12.5 2.5" fill="none" stroke="currentColor" strokeWidth="2.4" />
          </svg>
        </span>
        <span>Bring the books to this dip</span>
      </label>
      {adjust && <ReasonField value={reason} onChange={setReason} />}
    </AskDialog>
  );
}
