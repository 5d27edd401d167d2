/** Bags filled from a bay: a sample weighed bag by bag against OIML R 61, as it is typed. */
import { useState } from 'react';
import { checkBags, fillLimits, SAMPLE_BAGS } from '../../../machines/yard/stock/r61.ts';
import type { PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { Mark } from '../../parts/mark.tsx';
import { AskDialog, NumberField, needNumbers, SelectField, TextField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { numberOf } from '../stock/words.ts';

/** Weights as typed: numbers between spaces, semicolons or lines; a comma is a decimal comma. */
const weightsOf = (text: string): number[] =>
  text
    .split(/[\s;]+/)
    .filter((one) => one !== '')
    .map(numberOf);

export function BagDialog({
  book,
  place,
  onClose,
}: {
  readonly book: StockHere;
  readonly place: PlaceView;
  readonly onClose: () => void;
}) {
  const [bags, setBags] = useState('');
  const [sample, setSample] = useState('');
  const [klass, setKlass] = useState('1');
  const weights = weightsOf(sample);
  const sound = weights.length > 0 && weights.every((kg) => Number.isFinite(kg) && kg > 0);
  const accuracyClass = Number(klass);
  const limits = fillLimits(50, accuracyClass);
  const check = sound ? checkBags(weights, 50, accuracyClass) : null;
  const go = async (): Promise<boolean> => {
    const ready = needNumbers(book, [
      [numberOf(bags), 'Write how many bags were filled.'],
      [sound ? 1 : Number.NaN, 'Write the weights of the sample, in kg, one after the other.'],
    ]);
    if (!ready) return false;
    return book.put(
      {
        do: 'fillBags',
        from: place.place,
        nominalKg: 50,
        accuracyClass,
        bags: numberOf(bags),
        weighedKg: weights,
      },
      `${bags} bags filled.`,
    );
  };
  return (
    <AskDialog
      title={`Fill bags from ${place.name}`}
      go="Book the bags"
      wide
      book={book}
      onGo={go}
      onClose={onClose}
    >
      <div className="sk-fields">
        <NumberField label="Bags of 50 kg filled" value={bags} onChange={setBags} />
        <SelectField
          label="Filler class, OIML R 61"
          value={klass}
          onChange={setKlass}
          choices={[
            ['0.5', 'X(0.5)'],
            ['1', 'X(1)'],
            ['2', 'X(2)'],
          ]}
        />
        <TextField
          label="Weights of the sample, kg"
          value={sample}
          onChange={setSample}
          max={4000}
          wide
          hint={`One bag after the other with spaces between; ${SAMPLE_BAGS} bags make a full sample (from memory).`}
        />
      </div>
      <ul className="sk-working" aria-live="polite">
        <li>
          <span>Each bag may lie from the mean by (in service)</span>
          <strong>{limits.deviationG.toFixed(0)} g</strong>
        </li>
        <li>
          <span>The mean may lie from 50 kg by</span>
          <strong>{limits.presetG.toFixed(1)} g</strong>
        </li>
        {check !== null && (
          <>
            <li className={check.presetWithin ? undefined : 'sk-warn'}>
              <span>
                Mean of {weights.length}, {check.meanKg.toFixed(3)} kg
              </span>
              <strong>
                {check.presetErrorG >= 0 ? '+' : '−'}
                {Math.abs(check.presetErrorG).toFixed(0)} g
              </strong>
            </li>
            {check.bags
              .map((bag, i) => ({ ...bag, n: i + 1 }))
              .filter((bag) => !bag.within)
              .map((bag) => (
                <li key={bag.n} className="sk-warn">
                  <span>
                    Bag {bag.n}: {bag.kg} kg
                  </span>
                  <strong>
                    {bag.deviationG >= 0 ? '+' : '−'}
                    {Math.abs(bag.deviationG).toFixed(0)} g from the mean
                  </strong>
                </li>
              ))}
            <li>
              <span className={check.pass ? 'sk-state' : 'sk-state sk-warn'}>
                <Mark shape={check.pass ? 'check' : 'triangle'} />
                {check.pass ? 'within class' : 'out of class: not booked until mended'}
              </span>
            </li>
          </>
        )}
      </ul>
    </AskDialog>
  );
}
