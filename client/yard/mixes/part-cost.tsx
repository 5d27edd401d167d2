/** Cost, energy and carbon dioxide of a tonne, line by line, and the factors behind them with their sources. */
import { type FormEvent, useId, useState } from 'react';
import type { CostSheet } from '../../../machines/yard/mixes/cost-sheet.ts';
import type { FactorRow } from '../../../machines/yard/mixes/factors.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { NumberField } from './number-field.tsx';
import type { MixesHere } from './use-mixes.ts';
import { figure } from './words.ts';

function FactorDialog({
  row,
  book,
  onClose,
}: {
  readonly row: FactorRow;
  readonly book: MixesHere;
  readonly onClose: () => void;
}) {
  const [value, setValue] = useState(row.value);
  const [source, setSource] = useState(row.changed ? row.source : '');
  const [reason, setReason] = useState('');
  const id = useId();
  const why = book.whyNot('setFactor');
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (why !== null) return book.asked.explain([why]);
    if (await book.put({ do: 'setFactor', factor: row.id, value, source, reason }, `${row.label} is set.`))
      onClose();
  };
  return (
    <Dialog title={row.label} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <p className="soft">
          Now {figure(row.value, 4)} {row.unit}: {row.source}.
        </p>
        <NumberField label="New figure" unit={row.unit} value={value} max={1_000_000} onChange={setValue} />
        <div className="field">
          <label htmlFor={`${id}-source`}>Where it comes from</label>
          <input
            id={`${id}-source`}
            type="text"
            maxLength={200}
            value={source}
            onChange={(event) => setSource(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-reason`}>Why it changes, kept in the record</label>
          <input
            id={`${id}-reason`}
            type="text"
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" data-barred={why !== null}>
            Set it
          </button>
        </div>
      </form>
    </Dialog>
  );
}

export function PartCost({
  cost,
  factors,
  book,
}: {
  readonly cost: CostSheet;
  readonly factors: readonly FactorRow[];
  readonly book: MixesHere;
}) {
  const [changing, setChanging] = useState<string | null>(null);
  const row = factors.find((one) => one.id === changing);
  const groups = [...new Set(factors.map((one) => one.group))];
  return (
    <section className="card stack" aria-labelledby="mx-cost">
      <h2 id="mx-cost">A tonne of mix: cost, energy, carbon dioxide</h2>
      <div className="mx-scroll">
        <table className="mx-table">
          <thead>
            <tr>
              <th scope="col">What goes into it</th>
              <th scope="col" className="num">
                Amount
              </th>
              <th scope="col" className="num">
                Cost
              </th>
              <th scope="col" className="num">
                MJ
              </th>
              <th scope="col" className="num">
                kg CO₂
              </th>
            </tr>
          </thead>
          <tbody>
            {cost.lines.map((line) => (
              <tr key={line.what}>
                <th scope="row">{line.what}</th>
                <td className="num">
                  {figure(line.amount, line.amount < 10 ? 2 : 0)} {line.unit}
                </td>
                <td className="num">{line.cost.toFixed(2)}</td>
                <td className="num">{line.energyMj === 0 ? '–' : figure(line.energyMj, 1)}</td>
                <td className="num">{line.co2Kg === 0 ? '–' : figure(line.co2Kg, 1)}</td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">In all</th>
              <td />
              <td className="num">{cost.cost.toFixed(2)}</td>
              <td className="num">{figure(cost.energyMj, 0)}</td>
              <td className="num">{figure(cost.co2Kg, 1)}</td>
            </tr>
          </tfoot>
        </table>
      </div>
      <details className="mx-more">
        <summary>Factors and limits, with their sources</summary>
        <div className="mx-scroll">
          <table className="mx-table">
            <tbody>
              {groups.flatMap((group) => [
                <tr key={group} className="mx-group">
                  <th scope="colgroup" colSpan={4}>
                    {group}
                  </th>
                </tr>,
                ...factors
                  .filter((one) => one.group === group)
                  .map((one) => (
                    <tr key={one.id}>
                      <th scope="row">{one.label}</th>
                      <td className="num">
                        {figure(one.value, 4)} {one.unit}
                      </td>
                      <td className="soft">{one.source}</td>
                      <td>
                        <button
                          type="button"
                          className="button quiet"
                          aria-label={`Change ${one.label}`}
                          onClick={() => setChanging(one.id)}
                        >
                          Change
                        </button>
                      </td>
                    </tr>
                  )),
              ])}
            </tbody>
          </table>
        </div>
      </details>
      {row !== undefined && <FactorDialog row={row} book={book} onClose={() => setChanging(null)} />}
    </section>
  );
}
