/** What the lab found in lots of this mix, beside what their version was to give. */
import { residueOfMixPct } from '../../../machines/mix/residue.ts';
import type { BlendSheet } from '../../../machines/yard/mixes/blend-sheet.ts';
import type { LotResults, MixView } from '../../../machines/yard/mixes/view.ts';
import { figure } from './words.ts';

const PASSING = 'passing:';

const found = (lot: LotResults, property: string): number | null =>
  lot.results.find((one) => one.property === property)?.value ?? null;

/** The sieve that lies furthest from the blend of the sheet; null when the lot has no grading. */
const furthest = (
  lot: LotResults,
  blend: BlendSheet,
): { readonly sieveMm: number; readonly byPct: number } | null => {
  let worst: { readonly sieveMm: number; readonly byPct: number } | null = null;
  for (const sieve of blend.sieves) {
    const value = found(lot, `${PASSING}${sieve.sieveMm}`);
    if (value === null) continue;
    const byPct = value - sieve.passingPct;
    if (worst === null || Math.abs(byPct) > Math.abs(worst.byPct)) worst = { sieveMm: sieve.sieveMm, byPct };
  }
  return worst;
};

const signed = (value: number, decimals: number): string =>
  `${value >= 0 ? '+' : ''}${figure(value, decimals)}`;

export function LotsFound({
  mix,
  blend,
  version,
}: {
  readonly mix: MixView;
  readonly blend: BlendSheet;
  /** The version the sheet stands for: gradings of other versions are not laid beside it. */
  readonly version: number;
}) {
  if (mix.lots.length === 0)
    return (
      <p className="soft">The lab has no results of a lot of this mix yet: they appear here as they come.</p>
    );
  return (
    <div className="mx-scroll">
      <table className="mx-table">
        <caption>Lots, as the lab found them</caption>
        <thead>
          <tr>
            <th scope="col">Lot</th>
            <th scope="col">State</th>
            <th scope="col" className="num">
              Residual binder, of mix
            </th>
            <th scope="col" className="num">
              To be
            </th>
            <th scope="col" className="num">
              Grading, furthest off
            </th>
          </tr>
        </thead>
        <tbody>
          {mix.lots.map((lot) => {
            const made = mix.versions.find((one) => one.content.version === lot.version)?.content;
            const residue = found(lot, 'residualBinderMixPct');
            const worst = lot.version === version ? furthest(lot, blend) : null;
            return (
              <tr key={lot.lot}>
                <th scope="row">
                  <span className="num">{lot.lot}</span> <span className="soft">version {lot.version}</span>
                </th>
                <td>{lot.state}</td>
                <td className="num">{residue === null ? '–' : `${figure(residue)} %`}</td>
                <td className="num soft">
                  {made === undefined
                    ? '–'
                    : `${figure(residueOfMixPct(made.binder.dosePct, made.binder.residueMassPct))} %`}
                </td>
                <td className="num">
                  {worst === null ? '–' : `${signed(worst.byPct, 1)} % at ${worst.sieveMm} mm`}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
