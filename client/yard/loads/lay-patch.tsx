/** Mix laid in a patch: tap the patch, see what it takes, change the kilograms if it took more or less. */
import { useState } from 'react';
import type { LoadView } from '../../../machines/yard/stock/views/loads.ts';
import { NumberField, needNumbers, SelectField, TextField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf } from '../stock/words.ts';

const OTHER = 'another';

export function LayPatch({ book, load }: { readonly book: StockHere; readonly load: LoadView }) {
  const laidGrams = (patch: string) =>
    load.laid.filter((one) => one.patch === patch).reduce((sum, one) => sum + one.grams, 0);
  const next = load.for.find((one) => laidGrams(one.patch) === 0);
  const [chosen, setChosen] = useState<string | null>(null);
  const [other, setOther] = useState('');
  const [kg, setKg] = useState<string | null>(null);
  const patch = chosen ?? next?.patch ?? OTHER;
  const row = load.for.find((one) => one.patch === patch);
  const proposedKg = row === undefined ? null : Math.min(row.wantedGrams / 1000, load.aboardKg);
  const kgText = kg ?? (proposedKg === null ? '' : String(Math.round(proposedKg * 10) / 10));
  const go = async () => {
    const name = patch === OTHER ? other.trim() : patch;
    if (name === '') return book.asked.explain(['Say which patch it was laid in.']);
    if (!needNumbers(book, [[numberOf(kgText), 'Write how many kilograms were laid.']])) return;
    const done = await book.put(
      { do: 'layPatch', load: load.id, patch: name, kg: numberOf(kgText) },
      `${kgText} kg laid in ${name}.`,
    );
    if (!done) return;
    setChosen(null);
    setKg(null);
    setOther('');
  };
  return (
    <section className="card stack" aria-label="Lay in a patch">
      <h2>Laid in a patch</h2>
      <SelectField
        label="Patch"
        value={patch}
        onChange={(value) => {
          setChosen(value);
          setKg(null);
        }}
        choices={[
          ...load.for.map((one) => {
            const done = laidGrams(one.patch);
            const state = done > 0 ? `${mass(done / 1000)} laid` : `takes ${mass(one.wantedGrams / 1000)}`;
            return [one.patch, `${one.patch} ${one.where}, ${state}`] as const;
          }),
          [OTHER, 'a patch that is not on this load'],
        ]}
      />
      {patch === OTHER && (
        <TextField
          label="Which patch"
          value={other}
          onChange={setOther}
          max={60}
          hint="its list and row, or its place"
        />
      )}
      <NumberField
        label="Kilograms laid"
        value={kgText}
        onChange={setKg}
        hint={`${mass(load.aboardKg)} aboard`}
      />
      <button
        type="button"
        className="button primary"
        aria-busy={book.asked.waiting}
        onClick={() => void go()}
      >
        It is laid
      </button>
    </section>
  );
}
