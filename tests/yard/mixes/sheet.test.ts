/** The whole sheet of a mix: hand-worked figures of the demonstration mixes, findings, sensitivities, differences. */
import { describe, expect, it } from 'vitest';
import { batchTargets } from '../../../machines/mix/batch-targets.ts';
import { type Mix, mixSchema } from '../../../machines/scenario/mix.schema.ts';
import { bandOf, leaned, rangeOf } from '../../../machines/yard/mixes/band.ts';
import { binFigures } from '../../../machines/yard/mixes/bins.ts';
import { usualConditions } from '../../../machines/yard/mixes/conditions.ts';
import { differences, leavesOf, NAMED_PATHS } from '../../../machines/yard/mixes/difference.ts';
import { factorRows, factorValues } from '../../../machines/yard/mixes/factors.ts';
import { type MixSheet, mixSheet, type SheetInput } from '../../../machines/yard/mixes/sheet.ts';
import { coldMix, cutbackMix, demoSpec, emulsionMix as fileMix, mixes } from '../../plant/demo.ts';

const factors = factorValues(factorRows({}));

/** Written out, so that the working below stays true whatever the demonstration files come to say. */
const emulsionMix: Mix = {
  ...fileMix,
  batchKg: 750,
  aggregates: [
    { bin: 1, dryPct: 45 },
    { bin: 2, dryPct: 35 },
    { bin: 3, dryPct: 20 },
  ],
  binder: { ...fileMix.binder, dosePct: 7.5, residueMassPct: 60, solventMassPct: 0 },
  antiStripPctOfBinder: 0,
  preWetPct: 1.5,
};
const MOISTURE = [2.4, 4.8, 8.5];
const ABSORPTION = [0.6, 0.8, 1];
const plant = {
  ...demoSpec,
  bins: demoSpec.bins.map((bin, i) => ({
    ...bin,
    testedMoisturePct: MOISTURE[i] as number,
    absorptionPct: ABSORPTION[i] as number,
  })),
};
const bins = binFigures({ plant, bins: {}, morning: null }, {});

const inputOf = (mix: Mix, more: Partial<SheetInput> = {}): SheetInput => ({
  mix,
  plant,
  bins,
  specification: null,
  conditions: usualConditions(mix, demoSpec, 10, 6 * 60),
  factors,
  ...more,
});

const sheetOf = (mix: Mix, more: Partial<SheetInput> = {}): MixSheet => {
  const made = mixSheet(inputOf(mix, more));
  if (!made.ok) throw new Error(made.because.join(' '));
  return made.sheet;
};

const wordsOf = (sheet: MixSheet): string => sheet.findings.map((one) => one.words).join('\n');

describe('the emulsion mix of the demonstration, by hand', () => {
  const sheet = sheetOf(emulsionMix);

  it('moisture of the blend: 0.45·2.4 + 0.35·4.8 + 0.20·8.5 = 4.46 %', () => {
    expect(sheet.moisturePct).toBeCloseTo(4.46, 10);
  });

  it('the stone brings more than the 1.5 % wanted, so none is added: 750/(1 + 0.0446 + 0.075) = 669.88 kg dry', () => {
    expect(sheet.weights.targets.dryKg).toBeCloseTo(669.882, 3);
    expect(sheet.weights.targets.waterKg).toBe(0);
    // Bin 3: 669.882·0.20·1.085 = 145.364; bin 1: ·0.45·1.024 = 308.682; bin 2: ·0.35·1.048 = 245.713; together 699.759.
    expect(sheet.weights.weights.map((one) => one.kg)).toEqual([309, 246, 145, 50.2]);
    expect(sheet.weights.weights.map((one) => one.exactKg)).toEqual([
      expect.closeTo(308.682, 3),
      expect.closeTo(245.713, 3),
      expect.closeTo(145.364, 3),
      expect.closeTo(50.241, 3),
    ]);
  });

  it('in-service errors: 309 intervals of 1 kg lie in the first band, ±1 kg; 502 of 0.1 kg in the second, ±0.2 kg', () => {
    expect(sheet.weights.weights.map((one) => one.errorKg)).toEqual([1, 1, 1, 0.2]);
  });

  it('total fluids: 7.5 + 4.46 = 11.96 % on dry aggregate, just below the 12 % of the warning', () => {
    expect(sheet.binder.fluids?.totalPct).toBeCloseTo(11.96, 10);
    expect(wordsOf(sheet)).not.toContain('run off');
    const wetter = bins.map((bin) => (bin.bin === 3 ? { ...bin, moisturePct: 9.5 } : bin));
    expect(wordsOf(sheetOf(emulsionMix, { bins: wetter }))).toContain('Total fluids of 12.2 %');
  });

  it('one per cent wetter fines: 145.364/1.095 = 132.752 kg dry, 1.224 less; fluids to 12.17 %', () => {
    // Dry 668.658; water 29.877 + 1.224 = 31.101; (50.241 + 31.101)/668.658 = 12.165 %. Residue: 30.145/668.658 = 4.508 on
    // aggregate and 4.3138 of mix, against 4.5 and 4.3062: +0.0076.
    const words = sheet.sensitivities.find((one) => one.what === '1 % wetter fines');
    expect(words?.words).toContain('1.2 kg less stone');
    expect(words?.words).toContain('from 12 to 12.2 % on dry aggregate');
    expect(words?.residueChangePct).toBeCloseTo(0.00755, 4);
  });

  it('one per cent more water in the binder: 7.5·0.59 = 4.425 on aggregate, 4.2375 of mix', () => {
    const words = sheet.sensitivities.find((one) => one.what === '1 % more water in the binder');
    expect(words?.words).toContain('4.24 % of mix in place of 4.31 %');
  });

  it('contact at 10 °C with emulsion at 25 °C lands between, nearer to the stone', () => {
    expect(sheet.temperatures.mixC).toBeGreaterThan(10);
    expect(sheet.temperatures.mixC).toBeLessThan(14);
    expect(sheet.temperatures.drying).toBeNull();
  });

  it('costs add up, and nothing is fired but for the tank', () => {
    const { lines, cost, energyMj, co2Kg } = sheet.cost;
    expect(lines.reduce((sum, line) => sum + line.cost, 0)).toBeCloseTo(cost, 9);
    expect(lines.reduce((sum, line) => sum + line.co2Kg, 0)).toBeCloseTo(co2Kg, 9);
    expect(lines.some((line) => line.what === 'Fuel of the dryer')).toBe(false);
    // Emulsion: 66.988 kg a tonne, 60 % residue at 200 kg/t: 8.04 kg; at 460 a tonne: 30.81.
    const binder = lines.find((line) => line.what === emulsionMix.binder.grade);
    expect(binder?.amount).toBeCloseTo(66.988, 3);
    expect(binder?.co2Kg).toBeCloseTo(8.0386, 3);
    expect(binder?.cost).toBeCloseTo(30.815, 3);
    expect(energyMj).toBeGreaterThan(14.4);
  });
});

describe('the cutback mix', () => {
  const sheet = sheetOf(cutbackMix);

  it('takes dry stone from the holding bin in 2 kg steps, and says the window lies above the flash point', () => {
    expect(sheet.weights.weights[0]).toMatchObject({ scale: 'holding bin', intervalKg: 2 });
    expect((sheet.weights.weights[0]?.kg ?? 1) % 2).toBe(0);
    expect(sheet.weights.charge.reduce((sum, one) => sum + one.kg, 0)).toBe(950);
    expect(wordsOf(sheet)).toContain('above the flash point of 66 °C');
  });

  it('viscosity gives a window inside what is published for MC-800', () => {
    const { viscosity, published } = sheet.temperatures.windows;
    expect(published?.grade).toBe('MC-800');
    expect(viscosity?.fromC).toBeGreaterThan(75);
    expect(viscosity?.toC).toBeLessThan(97);
  });

  it('hot binder warms the mix by two to five kelvin above the stone', () => {
    expect(sheet.temperatures.mixC - 50).toBeGreaterThan(2);
    expect(sheet.temperatures.mixC - 50).toBeLessThan(5);
  });

  it('stone drawn too hot would pass the limit of the plant: that stops it', () => {
    const hot = { ...usualConditions(cutbackMix, demoSpec, 10, 360), aggregateC: 65 };
    const found = sheetOf(cutbackMix, { conditions: hot }).findings[0];
    expect(found).toMatchObject({ weight: 'stop', part: 'temperatures' });
    expect(found?.words).toContain("above the plant's limit of 65 °C");
  });

  it('dries in whole charges and says how many batches stay warm', () => {
    const { drying, draws } = sheet.temperatures;
    expect(drying?.charges).toBe(
      Math.ceil((sheet.weights.targets.dryKg * 13) / (950 / (1 + sheet.moisturePct / 100))),
    );
    expect(draws?.batches).toBeGreaterThanOrEqual(13);
    const bitter = { ...usualConditions(cutbackMix, demoSpec, -25, 360), batchEveryS: 3600 };
    const cold = sheetOf(cutbackMix, { conditions: bitter });
    expect(cold.temperatures.draws?.endsBy).toBe('cold');
    expect(wordsOf(cold)).toContain('below 25 °C');
  });

  it('says when to begin heating the tank: earlier from colder', () => {
    const at = (tankC: number) =>
      sheetOf(cutbackMix, { conditions: { ...usualConditions(cutbackMix, demoSpec, 10, 360), tankC } })
        .temperatures.tank;
    expect(at(84)).toEqual({ warmS: 0, startAtMin: 360 });
    expect(at(60).startAtMin).toBeLessThan(at(75).startAtMin as number);
  });
});

describe('findings', () => {
  it('a specification that asks for more binder than the dose gives: words say which dose would', () => {
    const specification = {
      limits: [
        {
          property: 'residualBinderMixPct',
          from: 4.5,
          to: 5.5,
          unit: '%',
          source: 's',
          status: 'common practice',
        },
        {
          property: 'residualBinderMixPct',
          from: 5.5,
          unit: '%',
          source: 's',
          status: 'common practice',
          when: { absorptionFromPct: 1.5 },
        },
      ],
    } as unknown as NonNullable<SheetInput['specification']>;
    expect(rangeOf(specification, 'residualBinderMixPct', 0.75)).toEqual({ from: 4.5, to: 5.5 });
    expect(rangeOf(specification, 'residualBinderMixPct', 1.6)).toEqual({ from: 5.5, to: 5.5 });
    const sheet = sheetOf(emulsionMix, { specification });
    expect(wordsOf(sheet)).toContain('4.31 % of mix lies below the 4.5 % asked for: dose 7.85 %');
    expect(
      wordsOf(
        sheetOf({ ...emulsionMix, binder: { ...emulsionMix.binder, dosePct: 7.86 } }, { specification }),
      ),
    ).not.toContain('asked for');
  });

  it('a band is read from the limits of a specification, its middle as target', () => {
    const limit = (property: string, from?: number, to?: number) => ({ property, from, to });
    const band = bandOf({
      limits: [limit('passing:2.36', 0, 35), limit('passing:9.5', 75, 100), limit('bondMPa', 1)] as never,
    });
    expect(band).toEqual([
      { sieveMm: 9.5, fromPct: 75, toPct: 100, targetPct: 87.5 },
      { sieveMm: 2.36, fromPct: 0, toPct: 35, targetPct: 17.5 },
    ]);
  });

  it('a target leaned a quarter of the way from the coarse edge', () => {
    const [sieve] = leaned([{ sieveMm: 2.36, fromPct: 5, toPct: 25, targetPct: 15 }], 25);
    expect(sieve?.targetPct).toBe(10);
  });

  it('natural sand, reclaimed pavement and a dose beyond its rule are told', () => {
    const sand = bins.map((bin) => (bin.bin === 3 ? { ...bin, kind: 'natural sand' as const } : bin));
    expect(wordsOf(sheetOf(emulsionMix, { bins: sand }))).toContain('20 % is natural sand');
    const old = bins.map((bin) => ({ ...bin, kind: 'reclaimed' as const, ownBinderPct: 4 }));
    expect(wordsOf(sheetOf(emulsionMix, { bins: old }))).toContain('1.5–2.5 % of special emulsion is usual');
    const right = { ...emulsionMix, binder: { ...emulsionMix.binder, dosePct: 2 } };
    expect(wordsOf(sheetOf(right, { bins: old }))).not.toContain('special emulsion');
  });

  it('a tiny batch lies below the least load of its scales', () => {
    expect(
      wordsOf(
        sheetOf({
          ...emulsionMix,
          batchKg: 100,
          aggregates: [
            { bin: 1, dryPct: 90 },
            { bin: 3, dryPct: 10 },
          ],
        }),
      ),
    ).toContain('below the least load of the aggregate weigh hopper, 20 kg');
  });

  it('a mix that names a bin the plant lacks has no sheet, but reasons', () => {
    const made = mixSheet(inputOf({ ...emulsionMix, aggregates: [{ bin: 4, dryPct: 100 }] }));
    expect(made.ok ? [] : made.because).toEqual([
      'The plant has 3 bins: take the share of bin 4 from another.',
    ]);
  });

  it.each(mixes.map((mix) => [mix.id, mix] as const))(
    '%s of the demonstration has nothing that stops it',
    (_, mix) => {
      expect(sheetOf(mix).findings.filter((one) => one.weight === 'stop')).toEqual([]);
    },
  );

  it('exact weights are the very targets the line weighs to', () => {
    const own = sheetOf(emulsionMix).weights;
    const line = batchTargets(emulsionMix, plant.bins);
    expect(own.targets).toEqual(line);
  });
});

describe('differences', () => {
  it('field by field, in words with units', () => {
    const now: Mix = {
      ...emulsionMix,
      version: 2,
      aggregates: [
        { bin: 1, dryPct: 55 },
        { bin: 2, dryPct: 45 },
      ],
      binder: { ...emulsionMix.binder, dosePct: 8 },
    };
    expect(differences(emulsionMix, now).map(({ field, was, now: then }) => [field, was, then])).toEqual([
      ['Share of bin 1', '45 %', '55 %'],
      ['Share of bin 2', '35 %', '45 %'],
      ['Dose, on dry aggregate', '7.5 %', '8 %'],
      ['Share of bin 3', '20 %', null],
    ]);
  });

  it('none between a mix and itself under another number', () => {
    expect(differences(emulsionMix, { ...emulsionMix, version: 9 })).toEqual([]);
  });

  it('every field of the mix schema has words of its own, and no words name a field that is not there', () => {
    const whole = mixSchema.parse({
      ...coldMix,
      specification: 'some',
      binder: { ...coldMix.binder, flashC: 70 },
    });
    const paths = Object.keys(leavesOf(whole)).filter((path) => !path.startsWith('aggregates.'));
    expect(paths.sort()).toEqual([...NAMED_PATHS].sort());
  });
});

describe('against a drying campaign of the simulated yard', () => {
  // A stand-in dried 11 charges of 950 kg at 4.155 % moisture in air of 9 °C: 2971 s from its start to the last charge.
  const at = { ...usualConditions(cutbackMix, demoSpec, 9, 360), batches: 14 };
  const wet = bins.map((bin) => ({ ...bin, moisturePct: 4.155 }));
  const { drying } = sheetOf(cutbackMix, { conditions: at, bins: wet }).temperatures;

  it('time and heat of the forecast lie within 10 % of what it took', () => {
    expect(drying?.charges).toBe(11);
    expect(Math.abs(((drying?.fireS ?? 0) + (drying?.aroundS ?? 0)) / 2971 - 1)).toBeLessThan(0.1);
    // 189 s of full fire and 70 s of low fire at 35 % a charge: 213.5 MJ.
    expect(Math.abs((drying?.firedKj ?? 0) / 11 / 213_500 - 1)).toBeLessThan(0.1);
  });
});
