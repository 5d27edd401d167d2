/** The lab book on samples: logged, replaced, handed over, kept back, thrown away; and what must not be. */
import { describe, expect, it } from 'vitest';
import { LOT, TestLab } from './support/lab.ts';

const LOG = { do: 'logSample', lot: LOT, massKg: 12, container: 'tin', retainedKg: 5 } as const;

describe('a sample in the book', () => {
  it('is logged with what the line knows of it, a label of its own and a date to throw the rest away', () => {
    const lab = new TestLab().fill().does('wrenna', { ...LOG, sample: 3 });
    const sample = lab.lot().samples[2];
    expect(sample).toMatchObject({
      state: 'logged',
      takenBy: 'wrenna',
      label: `${LOT}/S3`,
      massKg: 12,
      retainedKg: 5,
      // 28 days: retained portion of scenarios/specifications/emulsion-patch.yaml.
      discardOn: '2026-06-08',
    });
    expect(sample?.batch).toBe(2);
    expect(lab.refused('wrenna', { ...LOG, sample: 3 })).toContain('logged already');
    expect(lab.refused('wrenna', { ...LOG, sample: 4, label: `${LOT}/S3` })).toContain('on another sample');
  });

  it('that is not taken, not there or impossible is refused in words', () => {
    const lab = new TestLab().fill({ miss: [5] });
    expect(lab.refused('wrenna', { ...LOG, sample: 5 })).toContain('was missed: put one in its place');
    expect(lab.refused('wrenna', { ...LOG, sample: 9 })).toContain('has no sample 9');
    expect(lab.refused('wrenna', { ...LOG, sample: 1, massKg: -2 })).toContain('more than nothing');
    expect(lab.refused('wrenna', { ...LOG, sample: 1, massKg: '12 kg' })).toContain(
      'in kilograms, as a number',
    );
    expect(lab.refused('wrenna', { ...LOG, sample: 1, retainedKg: 13 })).toContain(
      'More is kept back (13 kg)',
    );
    expect(lab.refused('wrenna', { ...LOG, sample: 1, discardOn: '2026-05-01' })).toContain(
      'before the sample',
    );
    expect(lab.refused('wrenna', { ...LOG, sample: 1, lot: '260511-7' })).toContain(
      'There is no lot 260511-7',
    );
    expect(lab.refused('pell', { ...LOG, sample: 1 })).toContain('storekeeper');
  });

  it('goes from hand to hand, each named, and only by who has it', () => {
    const lab = new TestLab().fill().logAll();
    const pass = { do: 'handOverSample', lot: LOT, sample: 1 } as const;
    lab.does('wrenna', { ...pass, from: 'wrenna', to: 'isolde' });
    expect(lab.refused('wrenna', { ...pass, from: 'wrenna', to: 'halvard' })).toContain('is with isolde');
    expect(lab.refused('isolde', { ...pass, from: 'Isolde', to: 'isolde' })).toContain('name two');
    lab.does('isolde', { ...pass, from: 'isolde', to: 'outside laboratory' });
    expect(lab.lot().samples[0]?.custody.map(({ from, to }) => `${from} to ${to}`)).toEqual([
      'wrenna to isolde',
      'isolde to outside laboratory',
    ]);
  });

  it('is corrected with a reason, and what was stays beside what is', () => {
    const lab = new TestLab().fill().logAll();
    const correct = { do: 'correctSample', lot: LOT, sample: 1, reason: 'wrong scale read' } as const;
    lab.does('isolde', { ...correct, changes: { massKg: 11 } });
    expect(lab.lot().samples[0]).toMatchObject({
      massKg: 11,
      corrections: [
        { by: 'isolde', reason: 'wrong scale read', changes: [{ field: 'massKg', was: 12, now: 11 }] },
      ],
    });
    expect(lab.refused('isolde', { ...correct, changes: { massKg: 11 } })).toContain('Nothing would change');
    expect(lab.refused('isolde', { ...correct, changes: { retainedKg: 40 } })).toContain('kept back (40 kg)');
    expect(lab.refused('isolde', { ...correct, reason: '' })).toContain('reason');
  });

  it('has its retained portion kept until its date, or thrown away early with a reason', () => {
    const lab = new TestLab().fill().logAll();
    const discard = { do: 'discardRetained', lot: LOT } as const;
    expect(lab.refused('isolde', { ...discard, sample: 1 })).toContain('until 2026-06-08');
    lab.does('isolde', { ...discard, sample: 1, reason: 'the tin rusted through' });
    expect(lab.refused('isolde', { ...discard, sample: 1 })).toContain('already');
    lab.at = '2026-06-08T07:00:00';
    expect(lab.view().tasks.filter((task) => task.what === 'discard')).toHaveLength(6);
    lab.does('isolde', { ...discard, sample: 2 });
    expect(lab.lot().samples[1]?.discarded).toBe(true);
  });
});

describe('a sample that was missed', () => {
  it('does not pass unseen, and is replaced from the bay with a reason', () => {
    const lab = new TestLab()
      .fill({ miss: [4] })
      .logAll()
      .later()
      .testAll();
    expect(lab.view().prompts).toMatchObject([{ sample: 4, level: 'missed', urgency: 2 }]);
    expect(lab.lot().missing.join()).toContain('sample 4 was missed');
    const replace = {
      do: 'substituteSample',
      lot: LOT,
      sample: 4,
      source: 'bay',
      massKg: 10,
      container: 'tin',
      retainedKg: 4,
    };
    expect(lab.refused('isolde', replace)).toContain('reason');
    expect(lab.refused('isolde', { ...replace, sample: 3, reason: 'easier' })).toContain(
      'only one that was missed',
    );
    lab.does('isolde', { ...replace, reason: 'nobody was at the gate' });
    expect(lab.lot().samples[3]).toMatchObject({
      state: 'logged',
      substitute: { source: 'bay', ofSample: null },
    });
    lab.later(1).enter(4);
    expect(lab.lot()).toMatchObject({ verdict: 'pass', proposal: 'accept' });
  });

  it('is replaced from a retained portion only as far as there is one', () => {
    const lab = new TestLab().fill({ miss: [4] }).logAll();
    const replace = {
      do: 'substituteSample',
      lot: LOT,
      sample: 4,
      source: 'retained portion',
      container: 'tin',
      retainedKg: 0,
      reason: 'missed',
    };
    expect(lab.refused('isolde', { ...replace, massKg: 4 })).toContain('Say which sample');
    expect(lab.refused('isolde', { ...replace, massKg: 6, ofSample: 3 })).toContain(
      'Only 5 kg were kept back',
    );
    lab.does('isolde', { ...replace, massKg: 4, ofSample: 3 });
    expect(lab.lot().samples[3]?.substitute).toMatchObject({ source: 'retained portion', ofSample: 3 });
  });

  it('leaves the lot without a verdict where the specification knows no replacement', () => {
    const lab = new TestLab((scenario) => ({
      ...scenario,
      specifications: scenario.specifications?.map((one) => ({
        ...one,
        missedSample: { ...one.missedSample, rule: 'hold' as const },
      })) as NonNullable<typeof scenario.specifications>,
    })).fill({ miss: [4] });
    const replace = {
      do: 'substituteSample',
      lot: LOT,
      sample: 4,
      source: 'bay',
      massKg: 10,
      container: 'tin',
      retainedKg: 4,
      reason: 'missed',
    };
    expect(lab.refused('isolde', replace)).toContain('is not replaced');
  });
});

describe('a lot closed short', () => {
  it('needs the fewer samples its specification says', () => {
    const lab = new TestLab().fill({ batches: 5 }).logAll().later().testAll();
    const lost = lab.lot().samples.filter((one) => one.state === 'not reached');
    expect(lab.lot()).toMatchObject({ short: true });
    expect(lost.length).toBeGreaterThan(0);
    // Short lot of scenarios/specifications/emulsion-patch.yaml: one of each test.
    for (const { n, test } of lost)
      if (!lab.lot().worksheets.some((one) => one.test === test))
        lab.does('isolde', {
          do: 'substituteSample',
          lot: LOT,
          sample: n,
          source: 'bay',
          massKg: 10,
          container: 'tin',
          retainedKg: 4,
          reason: 'the lot was closed before it',
        });
    lab.later(2).testAll();
    expect(lab.lot().missing).toEqual([]);
    expect(lab.lot().verdict).toBe('pass');
  });
});
