/** A bay measured: weighed, as a cone or as a windrow; what is missing or over is shared over its lots and kept with its reason. */
import { useState } from 'react';
import { measuredKg, REPOSE_DEG } from '../../../machines/yard/piles/piles.ts';
import type { PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { AskDialog, NumberField, needNumbers, ReasonField, SelectField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { difference, mass, numberOf } from '../stock/words.ts';

type How = 'weighed' | 'cone' | 'windrow';

export function StockTakeDialog({
  book,
  place,
  onClose,
}: {
  readonly book: StockHere;
  readonly place: PlaceView;
  readonly onClose: () => void;
}) {
  const [how, setHow] = useState<How>(place.place === 'bags' ? 'weighed' : 'windrow');
  const [kgText, setKgText] = useState('');
  const [across, setAcross] = useState('');
  const [height, setHeight] = useState('');
  const [length, setLength] = useState('');
  const [loose, setLoose] = useState(String(place.heap?.looseKgM3 ?? 1600));
  const [reason, setReason] = useState('');
  const [a, h, l, looseKgM3] = [numberOf(across), numberOf(height), numberOf(length), numberOf(loose)];
  const measure =
    how === 'weighed'
      ? ({ how, kg: numberOf(kgText) } as const)
      : how === 'cone'
        ? ({ how, diameterM: a, heightM: h, looseKgM3 } as const)
        : ({ how, widthM: a, heightM: h, lengthM: l, looseKgM3 } as const);
  const kg = measuredKg(measure);
  const slopeDeg = (Math.atan2(h, a / 2) * 180) / Math.PI;
  const steep = how !== 'weighed' && slopeDeg > 50;
  const go = async (): Promise<boolean> =>
    needNumbers(book, [
      [kg, how === 'weighed' ? 'Write the kilograms weighed.' : 'Write all measures of the heap in metres.'],
    ]) && book.put({ do: 'stockTake', place: place.place, measure, reason }, `Stock of ${place.name} taken.`);
  return (
    <AskDialog
      title={`Take stock: ${place.name}`}
      go="Bring the books to this"
      wide
      book={book}
      onGo={go}
      onClose={onClose}
    >
      <SelectField
        label="How it was measured"
        value={how}
        onChange={(value) => setHow(value as How)}
        choices={[
          ['weighed', 'weighed'],
          ['cone', 'heap as a cone'],
          ['windrow', 'windrow: a ridge with rounded ends'],
        ]}
      />
      <div className="sk-fields">
        {how === 'weighed' ? (
          <NumberField label="Kilograms" value={kgText} onChange={setKgText} />
        ) : (
          <>
            <NumberField label="Across the foot, m" value={across} onChange={setAcross} />
            <NumberField label="Height, m" value={height} onChange={setHeight} />
            {how === 'windrow' && (
              <NumberField label="Length over all, m" value={length} onChange={setLength} />
            )}
            <NumberField
              label="Loose density, kg/m³"
              value={loose}
              onChange={setLoose}
              hint="1600–1750 for loose cold mix, from memory: weigh a filled box"
            />
          </>
        )}
      </div>
      <ul className="sk-working" aria-live="polite">
        {Number.isFinite(kg) ? (
          <>
            {how !== 'weighed' && (
              <li className={steep ? 'sk-warn' : undefined}>
                <span>
                  Slope {slopeDeg.toFixed(0)}°; cold mix rests at about {REPOSE_DEG['cold mix']}°
                  {steep ? ': too steep for a loose heap, measure again' : ''}
                </span>
                <strong>{(kg / looseKgM3).toFixed(2)} m³</strong>
              </li>
            )}
            <li>
              <span>Measured</span>
              <strong>{mass(kg)}</strong>
            </li>
            <li>
              <span>
                The books say {mass(place.kg)}; difference, shared over the lots by what each has there
              </span>
              <strong>{difference(kg - place.kg)}</strong>
            </li>
          </>
        ) : (
          <li className="soft">Mass and difference are shown as soon as the measures are written.</li>
        )}
      </ul>
      <ReasonField value={reason} onChange={setReason} />
    </AskDialog>
  );
}
