/** A bin, heap or shelf counted: kilograms, or the measures of the heap, held against the books. */
import { useState } from 'react';
import { coneM3, REPOSE_DEG } from '../../../machines/yard/piles/piles.ts';
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';
import { AskDialog, NumberField, needNumbers, ReasonField, SelectField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { difference, mass, numberOf } from '../stock/words.ts';
import { storeTitle } from './names.ts';

export function CountDialog({
  book,
  store,
  onClose,
}: {
  readonly book: StockHere;
  readonly store: StoreView;
  readonly onClose: () => void;
}) {
  const [how, setHow] = useState(store.kind === 'pile' ? 'cone' : 'kg');
  const [kgText, setKgText] = useState('');
  const [across, setAcross] = useState('');
  const [height, setHeight] = useState('');
  const [loose, setLoose] = useState('1500');
  const [adjust, setAdjust] = useState('no');
  const [reason, setReason] = useState('');
  const coneKg = coneM3(numberOf(across) / 2, numberOf(height)) * numberOf(loose);
  const kg = how === 'cone' ? coneKg : numberOf(kgText);
  const slope = (Math.atan2(numberOf(height), numberOf(across) / 2) * 180) / Math.PI;
  const go = async (): Promise<boolean> => {
    const ready = needNumbers(book, [
      [
        kg,
        how === 'cone'
          ? 'Write width across the foot, height and loose density of the heap.'
          : 'Write how many kilograms there are.',
      ],
    ]);
    if (!ready) return false;
    const adjusted = adjust === 'yes' ? { adjustReason: reason } : {};
    const rounded = Math.round(kg * 1000) / 1000;
    const words =
      how === 'cone' ? `cone ${across} m across, ${height} m high, ${loose} kg/m³` : 'weighed or counted';
    return book.put(
      { do: 'countStore', store: store.id, kg: rounded, how: words, ...adjusted },
      'Count entered.',
    );
  };
  return (
    <AskDialog
      title={`Count: ${storeTitle(store.id, store.material)}`}
      go="Enter the count"
      book={book}
      onGo={go}
      onClose={onClose}
    >
      {store.kind === 'pile' && (
        <SelectField
          label="How it is measured"
          value={how}
          onChange={setHow}
          choices={[
            ['cone', 'heap as a cone, by its measures'],
            ['kg', 'kilograms known otherwise'],
          ]}
        />
      )}
      {how === 'cone' ? (
        <div className="sk-fields">
          <NumberField label="Across the foot, m" value={across} onChange={setAcross} />
          <NumberField label="Height, m" value={height} onChange={setHeight} />
          <NumberField
            label="Loose density, kg/m³"
            value={loose}
            onChange={setLoose}
            hint="weigh a filled bucket"
          />
        </div>
      ) : (
        <NumberField label="Kilograms there" value={kgText} onChange={setKgText} />
      )}
      <ul className="sk-working" aria-live="polite">
        {Number.isFinite(kg) ? (
          <>
            {how === 'cone' && (
              <li>
                <span>
                  π · r² · h / 3, slope {slope.toFixed(0)}° (sharp gravel rests at{' '}
                  {REPOSE_DEG['sharp gravel']}°, dry sand at {REPOSE_DEG['dry sand']}°)
                </span>
                <strong>{mass(kg)}</strong>
              </li>
            )}
            <li>
              <span>The books say {mass(store.kg)}; difference</span>
              <strong>{difference(kg - store.kg)}</strong>
            </li>
          </>
        ) : (
          <li className="soft">The difference to the books is shown as soon as it is written.</li>
        )}
      </ul>
      <SelectField
        label="The books"
        value={adjust}
        onChange={setAdjust}
        choices={[
          ['no', 'stay as they are: only note the count'],
          ['yes', 'are brought to the count'],
        ]}
      />
      {adjust === 'yes' && <ReasonField value={reason} onChange={setReason} />}
    </AskDialog>
  );
}
