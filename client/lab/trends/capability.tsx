/** How the lots lie within the limits: estimated share within, and capability. */
import {
  capability,
  deviation,
  individuals,
  mean,
  pwlOf,
  type Series,
} from '../../../machines/lab/stats/index.ts';
import { propertyWords, valueWords } from '../words.ts';

const figure = (value: number | null): string =>
  value === null || !Number.isFinite(value) ? '–' : value.toFixed(2).replace(/^-/, '−');

export function Capability({
  lots,
  limits,
  property,
}: {
  readonly lots: Series;
  readonly limits: { readonly from: number | null; readonly to: number | null };
  readonly property: string;
}) {
  const values = lots.map(({ value }) => value);
  const within = pwlOf(values, limits);
  const { sigma } = individuals(values);
  const hasLimits = limits.from !== null || limits.to !== null;
  const fits = capability({ mean: mean(values), sigma }, limits);
  return (
    <section className="card stack" aria-labelledby="fit-head">
      <h2 id="fit-head">Within limits</h2>
      {!hasLimits && (
        <p className="soft">The specification sets no limit on {propertyWords(property).toLowerCase()}.</p>
      )}
      <dl className="facts">
        <div>
          <dt>Lots</dt>
          <dd className="num">{values.length}</dd>
        </div>
        <div>
          <dt>Mean</dt>
          <dd className="num">{valueWords(property, mean(values))}</dd>
        </div>
        <div>
          <dt>Standard deviation of lots</dt>
          <dd className="num">{values.length < 2 ? '–' : deviation(values).toFixed(3)}</dd>
        </div>
        {hasLimits && (
          <>
            <div>
              <dt>Estimated share within limits</dt>
              <dd className="num">
                {within === null
                  ? 'needs three lots'
                  : `${within.withinPct.toFixed(1)} % (beta estimator, n ${within.n})`}
              </dd>
            </div>
            <div>
              <dt>Capability Cp, both limits</dt>
              <dd className="num">{figure(fits.cp)}</dd>
            </div>
            <div>
              <dt>Capability Cpk, nearer limit</dt>
              <dd className="num">{figure(fits.cpk)}</dd>
            </div>
          </>
        )}
      </dl>
      <p className="soft-line">
        Capability uses the spread of neighbouring lots ({figure(sigma)} from moving ranges). It means little
        while the charts show signals.
      </p>
    </section>
  );
}
