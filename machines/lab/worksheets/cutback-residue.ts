/** Residue of a cutback by distillation: volume %, and mass % from two densities. */
import { makeSheet } from './make-sheet.ts';
import { plain } from './rounding.ts';
import { choice, quantity } from './spec.ts';

/** Temperatures at which the receiver is read, °C (ASTM D402). */
const CUTS = ['190', '225', '260', '316', '360'] as const;

export const cutbackResidue = makeSheet({
  id: 'cutback-residue',
  test: 'cutback residue',
  title: 'Residue of cutback by distillation',
  basis:
    'ASTM D402 / AASHTO T 78: 200 ml distilled to 360 °C; residue is the volume of the sample less that of all distillate, % by volume, as ASTM D2027 / AASHTO M 82 limits it. Mass % is computed from densities at 15 °C.',
  cautions: [
    'A cutback is distilled over a flame far above its flash point: shield and tray, extinguisher at hand, nothing else that burns on the bench.',
    'A wet sample foams over into the burner: find the water first; above 0.2 % dry it first.',
    'Residue is poured at 360 °C: let it cool below 300 °C under its lid, it catches fire in air.',
  ],
  fields: [
    quantity('Distillation', 'sampleMl', 'Sample', 'ml', 1, 1000, { symbol: 'V', hint: '200 ml' }),
    quantity('Distillation', 'distillateMl', 'Distillate to °C', 'ml', 0, 1000, { symbol: 'D', each: CUTS }),
    choice('Densities', 'densities', 'Known densities', [
      ['residue', 'Residue and distillate'],
      ['cutback', 'Cutback and distillate'],
    ]),
    quantity('Densities', 'residueKgM3', 'Residue at 15 °C', 'kg/m³', 900, 1200, {
      symbol: 'r',
      decimals: 0,
      when: { key: 'densities', is: ['residue'] },
    }),
    quantity('Densities', 'cutbackKgM3', 'Cutback at 15 °C', 'kg/m³', 800, 1100, {
      symbol: 'c',
      decimals: 0,
      when: { key: 'densities', is: ['cutback'] },
    }),
    quantity('Densities', 'distillateKgM3', 'Distillate at 15 °C', 'kg/m³', 650, 950, {
      symbol: 'd',
      decimals: 0,
    }),
  ],
  steps: [
    { title: 'Charge', instruction: 'Measure 200 ml into the flask; thermometer bulb near the bottom.' },
    {
      title: 'Distil',
      instruction: 'First drop within 5 to 15 min; read the receiver at 190, 225, 260, 316 and 360 °C.',
      tempC: 360,
    },
    {
      title: 'Pour',
      instruction: 'Flame out, shield off, cool under cover, pour the residue.',
      seconds: 600,
    },
  ],
  leastMinutes: 45,
  work: (values, page) => {
    const V = values.num('sampleMl');
    let before = 0;
    for (const cut of CUTS) {
      const key = `distillateMl:${cut}`;
      const ml = values.num(key);
      if (ml > V)
        page.refuse(
          key,
          `Distillate to ${cut} °C: ${plain(ml)} ml is more than the sample (${plain(V)} ml): read it again`,
        );
      else if (ml < before)
        page.refuse(
          key,
          `Distillate to ${cut} °C: ${plain(ml)} ml is less than at the reading before (${plain(before)} ml): the receiver only fills; read it again`,
        );
      before = Math.max(before, ml);
    }
    if (page.refused()) return;
    const D = values.num('distillateMl:360');
    if (D === V)
      return page.refuse(
        'distillateMl:360',
        'All of the sample was distilled: no residue is left; read the receiver again',
      );
    page.calc('Residue', 'R = V − D5', 'ml', 1);
    const volumePct = page.calc('Residue, by volume', 'Rv = 100 × R ÷ V', '%', 1);
    const massPct =
      values.text('densities') === 'residue'
        ? page.calc(
            'Residue, by mass (volumes times densities)',
            'Rm = 100 × R × r ÷ (R × r + D5 × d)',
            '%',
            1,
          )
        : page.calc(
            'Residue, by mass (sample less distillate)',
            'Rm = 100 × (V × c − D5 × d) ÷ (V × c)',
            '%',
            1,
          );
    if (massPct <= 0 || massPct > 100)
      return page.refuse(
        'distillateKgM3',
        'With these densities the residue has no mass that can be: look at the densities',
      );
    if (massPct < volumePct)
      page.note(
        'The residue is lighter than the distillate by these densities: look whether they were exchanged.',
      );
    page.result('residuePct', massPct, 1);
    page.result('residueVolumePct', volumePct, 1);
    if (D > 0)
      CUTS.slice(0, -1).forEach((cut, i) => {
        const n = i + 1;
        const part = page.calc(
          `Distillate to ${cut} °C, of all to 360 °C`,
          `p${n} = 100 × D${n} ÷ D5`,
          '%',
          1,
        );
        page.result(`distillate:${Number(cut)}`, part, 1);
      });
    page.note(
      'Limits of cutback grades are % by volume; doses and residual binder go by mass. They are not the same number.',
    );
    page.within('Sample', V, { from: 199, to: 201 }, 'ml');
  },
});
