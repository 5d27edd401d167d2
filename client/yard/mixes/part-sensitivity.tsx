/** What the mix comes to when something is a little other than believed, in sentences. */
import type { Sensitivity } from '../../../machines/yard/mixes/sensitivity.ts';

export function PartSensitivity({ sensitivities }: { readonly sensitivities: readonly Sensitivity[] }) {
  return (
    <section className="card stack" aria-labelledby="mx-sensitivity">
      <h2 id="mx-sensitivity">What if it is a little otherwise</h2>
      <ul className="mx-whatif">
        {sensitivities.map((one) => (
          <li key={one.what}>{one.words}</li>
        ))}
      </ul>
    </section>
  );
}
