/** The batches of a lot as sheets: what was asked for and weighed, how warm, how long mixed, how it looked. */
import { memo } from 'react';
import { Link } from 'wouter';
import type { BatchView } from '../../machines/line/view.types.ts';
import { formatCountdown, formatKg, shiftClock } from '../format/format.ts';
import { reportPath, useHasReports } from '../reports/plants-own.ts';

type Props = { readonly batches: readonly BatchView[]; readonly startsAt: string };

/** Materials in the order they were weighed, over all batches shown. */
const materialsOf = (batches: readonly BatchView[]): readonly string[] => [
  ...new Set(batches.flatMap((batch) => batch.parts.map((part) => part.material))),
];

export const BatchSheets = memo(function BatchSheets({ batches, startsAt }: Props) {
  const materials = materialsOf(batches);
  const hasReports = useHasReports();
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="sheets" tabIndex={0} aria-label="Batch sheets, scrolls sideways">
      <table className="num">
        <thead>
          <tr>
            <th scope="col">Batch</th>
            <th scope="col">From–to</th>
            {materials.map((material) => (
              <th scope="col" key={material}>
                {material}, kg
              </th>
            ))}
            <th scope="col">Mass</th>
            <th scope="col">Mix °C</th>
            <th scope="col">Mixed</th>
            <th scope="col">Coated</th>
          </tr>
        </thead>
        <tbody>
          {batches.map((batch) => (
            <Sheet
              key={batch.n}
              batch={batch}
              materials={materials}
              startsAt={startsAt}
              hasReports={hasReports}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
});

/** Small parts are weighed to a tenth, aggregates to a kilogram: shown so, whole numbers too. */
const atScale = (kg: number): string => kg.toFixed(kg < 100 ? 1 : 0);

/** How it looked when it was let go, or why it was not. */
const outcome = (batch: BatchView): string => {
  if (batch.dumped !== null) return `dumped: ${batch.dumped}`;
  return batch.coatedPct === null ? '–' : `${batch.coatedPct} %`;
};

const Sheet = ({
  batch,
  materials,
  startsAt,
  hasReports,
}: {
  readonly batch: BatchView;
  readonly materials: readonly string[];
  readonly startsAt: string;
  readonly hasReports: boolean;
}) => (
  <tr>
    <th scope="row">
      {hasReports ? (
        <Link
          className="button batch-link"
          href={reportPath('batch', { batch: batch.n })}
          aria-label={`Batch sheet ${batch.n}`}
        >
          {batch.n}
        </Link>
      ) : (
        batch.n
      )}
    </th>
    <td>
      {shiftClock(startsAt, batch.fromMs, false)}–{shiftClock(startsAt, batch.toMs, false)}
    </td>
    {materials.map((material) => {
      const part = batch.parts.find((one) => one.material === material);
      if (part === undefined) return <td key={material}>–</td>;
      return (
        <td key={material}>
          {atScale(part.weighedKg)} <span className="soft">of {atScale(part.targetKg)}</span>
          {part.accepted !== '' && <span className="accepted">accepted by {part.accepted}</span>}
        </td>
      );
    })}
    <td>{formatKg(batch.massKg)} kg</td>
    <td>{batch.mixC.toFixed(1)}</td>
    <td>{formatCountdown(batch.mixedS)}</td>
    <td>{outcome(batch)}</td>
  </tr>
);
