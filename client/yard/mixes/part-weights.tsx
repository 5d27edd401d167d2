/** Weights: what each scale must show for a batch, from the newest moisture tests, in whole intervals, with error limits. */
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { PlantSpec } from '../../../machines/scenario/plant.schema.ts';
import type { BinFigures } from '../../../machines/yard/mixes/bins.ts';
import type { Weight, WeightsSheet } from '../../../machines/yard/mixes/weights-sheet.ts';
import { MoistureCheck } from './moisture-check.tsx';
import { NumberField } from './number-field.tsx';
import { figure } from './words.ts';

const decimalsOf = (interval: number): number => Math.max(0, Math.ceil(-Math.log10(interval) - 1e-9));

function WeightsTable({
  caption,
  weights,
}: {
  readonly caption: string;
  readonly weights: readonly Weight[];
}) {
  return (
    <div className="mx-scroll">
      <table className="mx-table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Material</th>
            <th scope="col" className="num">
              Exact, kg
            </th>
            <th scope="col" className="num">
              To weigh, kg
            </th>
            <th scope="col" className="num">
              In-service limit
            </th>
            <th scope="col">Weighed on</th>
          </tr>
        </thead>
        <tbody>
          {weights.map((one) => (
            <tr key={one.what}>
              <th scope="row">{one.what}</th>
              <td className="num soft">{one.exactKg.toFixed(decimalsOf(one.intervalKg) + 1)}</td>
              <td className="num">
                <strong>{one.kg.toFixed(decimalsOf(one.intervalKg))}</strong>
              </td>
              <td className="num">
                {one.errorKg === null
                  ? '–'
                  : `±${figure(one.errorKg)} kg, ${figure((100 * one.errorKg) / Math.max(one.kg, 1e-9))} %`}
              </td>
              <td>
                {one.on}, {figure(one.intervalKg)} kg steps
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export function PartWeights({
  content,
  plant,
  weights,
  bins,
  onChange,
}: {
  readonly content: Mix;
  readonly plant: PlantSpec;
  readonly weights: WeightsSheet;
  readonly bins: readonly BinFigures[];
  readonly onChange: (field: string, content: Mix) => void;
}) {
  return (
    <section className="card stack" aria-labelledby="mx-weights">
      <h2 id="mx-weights">Batch weights</h2>
      <div className="mx-fields">
        <NumberField
          label="Batch"
          unit="kg"
          value={content.batchKg}
          min={100}
          max={900}
          step={10}
          hint={`the mixer holds ${plant.mixer.capacityKg} kg`}
          onChange={(batchKg) => onChange('batchKg', { ...content, batchKg })}
        />
        {content.drying !== undefined && (
          <NumberField
            label="Dryer charge, wet"
            unit="kg"
            value={content.drying.chargeKg}
            min={100}
            max={1000}
            step={10}
            onChange={(chargeKg) =>
              content.drying !== undefined &&
              onChange('chargeKg', { ...content, drying: { ...content.drying, chargeKg } })
            }
          />
        )}
      </div>
      <WeightsTable caption="One batch" weights={weights.weights} />
      {weights.charge.length > 0 && (
        <WeightsTable caption="One dryer charge, as it lies in the cold bins" weights={weights.charge} />
      )}
      <MoistureCheck bins={bins} />
      <p className="soft">
        Moisture:{' '}
        {bins.map((bin) => `${bin.name} ${figure(bin.moisturePct, 1)} % (${bin.moistureSource})`).join('; ')}.
        Rounded so that the aggregate keeps its sum. Limits of a class III scale in use, OIML R 76: twice
        those at verification.
      </p>
    </section>
  );
}
