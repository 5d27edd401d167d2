/** Certificate, labels and the lab's part of the lot file: that they say what the lab did, and refuse what it did not. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Section } from '../../machines/reports/document.ts';
import { certificateCode } from '../../machines/reports/documents/certificate.ts';
import { documentOf } from '../../machines/reports/documents/document-of.ts';
import type { LabWork } from '../../machines/reports/lab-work.ts';
import { labelSheet } from '../../machines/reports/labels.ts';
import { makeReport, type Report } from '../../machines/reports/report.ts';
import { sha256 } from '../../server/digest.ts';
import { type LabLife, LOT, labLife, labScenario, labWorkOfTold } from './support/lab.ts';
import { entriesOf, shiftOf, sourceOf, type Told } from './support/shift.ts';

type Played = { readonly told: readonly Told[]; readonly lab: LabWork };

const play = (life: LabLife): Played => {
  const told = labLife(life);
  return { told, lab: labWorkOfTold(told) };
};
const reportOf = ({ told, lab }: Played, kind: 'certificate' | 'lot') =>
  makeReport(kind, sourceOf(shiftOf(told, { scenario: labScenario(), lab })), { lot: LOT });
const certificateOf = (played: Played): Extract<Report, { kind: 'certificate' }> => {
  const made = reportOf(played, 'certificate');
  if (!made.ok || made.report.kind !== 'certificate')
    throw new Error(made.ok ? 'not a certificate' : made.why);
  return made.report;
};
const section = (sections: readonly Section[], id: string): Section => {
  const found = sections.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no section ${id}`);
  return found;
};
const wordsOf = (one: Section): string =>
  one.is === 'words' || one.is === 'code'
    ? one.lines.join('\n')
    : one.is === 'table'
      ? one.rows.map((row) => row.join(' | ')).join('\n')
      : one.is === 'figures'
        ? one.figures.map(({ label, value, remark }) => `${label}: ${value} ${remark ?? ''}`).join('\n')
        : '';

describe('certificate of an accepted lot', () => {
  let accepted: Played;
  beforeAll(() => {
    accepted = play({});
  });

  it('says who accepted it and when, and that it meets its specification', () => {
    const document = documentOf(certificateOf(accepted));
    expect(document.title).toBe(`Certificate of lot ${LOT}`);
    expect(document.lead).toBe(
      `Lot ${LOT} is accepted: it meets specification Emulsion patch mix, version 1.`,
    );
    const decision = wordsOf(section(document.sections, 'decision'));
    expect(decision).toContain('By: Isolde Marrin quality officer');
    expect(decision).toContain('On: 2026-04-15 ');
    expect(document.onePage).toBe(true);
  });

  it('names the very entry of the record that decided, and its hash', () => {
    const report = certificateOf(accepted);
    const { seq, hash } = report.lab.decision;
    const entry = entriesOf(accepted.told).find((one) => one.seq === seq);
    expect(entry?.hash).toBe(hash);
    expect(entry?.kind === 'ledger' && entry.body.fact.is).toBe('lotAccepted');
    expect(certificateCode(report)).toBe(`patchyard lot ${LOT} accepted entry ${seq} sha256 ${hash}`);
    expect(wordsOf(section(documentOf(report).sections, 'check'))).toContain('patchyard verify');
  });

  it('sets every result beside its limit and the source of that limit; binder on both bases, bond in both units', () => {
    const results = section(documentOf(certificateOf(accepted)).sections, 'results');
    expect(wordsOf(results)).toContain(
      'Residual binder, of mix | 5.00, 5.00 | 5.0 % (5.3 % of aggregate) | 4.5 to 5.5 % | yes | Overall (common practice)',
    );
    // 2.60 kgf/cm² by standard gravity: 2.60 × 0.0980665.
    expect(wordsOf(results)).toMatch(
      /Bond in shear \| 2\.60 \| 2\.60 kg\/cm² \(0\.255 MPa\) \| at least 2 kg\/cm² \| yes/,
    );
    expect(wordsOf(results)).toContain('Workable in the cold | yes | yes | yes | yes');
    expect(results.is === 'table' && results.look).toEqual([]);
  });

  it('says how long the mix keeps: 60 days after it was closed', () => {
    expect(certificateOf(accepted).lab.keepsUntil).toBe('2026-06-13');
  });

  it('carries the caution of its family', () => {
    expect(wordsOf(section(documentOf(certificateOf(accepted)).sections, 'basis'))).toContain(
      'irritates skin and eyes',
    );
  });
});

describe('lots that fail', () => {
  it('a rejected lot gets a rejection, marked, that says it must not leave', () => {
    const document = documentOf(certificateOf(play({ secondBinderPct: 4.2, end: 'rejected' })));
    expect(document.title).toBe(`Rejection of lot ${LOT}`);
    expect(document.lead).toContain('must not leave the yard');
    const results = section(document.sections, 'results');
    expect(results.is === 'table' && results.look).toHaveLength(1);
    expect(wordsOf(section(document.sections, 'against'))).toContain('4.20 %, and the limit is 4.5 to 5.5 %');
  });

  it('a concession names both people and the reason, and is not called a certificate', () => {
    const report = certificateOf(play({ secondBinderPct: 4.2, end: 'released by concession' }));
    const document = documentOf(report);
    expect(document.title).toBe(`Release of lot ${LOT} by concession`);
    expect(document.lead).toContain('does not meet specification');
    const decision = wordsOf(section(document.sections, 'decision'));
    expect(decision).toContain('By: Halvard Quill supervisor');
    expect(decision).toContain('Concession asked by: Isolde Marrin');
    expect(decision).toContain('Reason: Temporary patch in our own yard only.');
  });

  it('a lot nobody decided about gets none, and the answer says what to do', () => {
    const made = reportOf(play({ end: 'none' }), 'certificate');
    expect(made).toMatchObject({ ok: false });
    expect(!made.ok && made.why).toContain(
      'a certificate is made when somebody has accepted, rejected or released it',
    );
  });
});

describe('the lab in the lot file', () => {
  let played: Played;
  let sections: readonly Section[];
  beforeAll(() => {
    played = play({});
    const made = reportOf(played, 'lot');
    if (!made.ok) throw new Error(made.why);
    sections = documentOf(made.report).sections;
  });

  it('holds the opened plan as one line whose SHA-256 is the commitment', () => {
    const { plan } = played.lab;
    expect(sha256(plan?.text ?? '')).toBe(plan?.commitment);
    expect(wordsOf(section(sections, 'plan'))).toContain(plan?.text ?? 'none');
  });

  it('lists every sample with its custody, and every worksheet with readings, working and result', () => {
    expect(wordsOf(section(sections, 'custody')).split('\n')).toHaveLength(7);
    const sheets = sections.filter((one) => /^sheet-T-\d+-\d+$/.test(one.id));
    expect(sheets).toHaveLength(7);
    const extraction = sheets.find((one) => one.title.includes('xtraction'));
    expect(wordsOf(extraction as Section)).toContain('Result: residual binder, of mix |  | 5.00 | %');
    expect(extraction?.is === 'table' && extraction.rows.some((row) => String(row[1]).includes('='))).toBe(
      true,
    );
  });

  it('shows that the dose of the mix and the limit contradict each other', () => {
    expect(wordsOf(section(sections, 'lab-open'))).toContain(
      'Contradiction: 7.5 % of dry aggregate of a binder with 60 % residue is 4.50 % of aggregate, 4.31 % of mix',
    );
  });

  it('shows who decided what', () => {
    expect(wordsOf(section(sections, 'lab-events'))).toContain('Isolde Marrin | Accepted | All in order.');
  });
});

describe('labels', () => {
  const about = { mix: 'emulsion-patch v1', family: 'emulsion', plant: 'Yard' };

  it('one a sample, and one for each portion kept back; the square says the label’s own text', () => {
    const { lab } = play({ end: 'none' });
    const { labels } = labelSheet(lab, about);
    expect(labels.map((one) => `${one.code} ${one.mark}`.trim())).toEqual([
      `${LOT}/S1`,
      `${LOT}/S2`,
      `${LOT}/S3`,
      `${LOT}/S3 kept back`,
      `${LOT}/S4`,
      `${LOT}/S4 kept back`,
      `${LOT}/S5`,
      `${LOT}/S6`,
      `${LOT}/S7`,
    ]);
    expect(labelSheet(lab, { ...about, sample: 3 }).labels).toHaveLength(2);
  });

  it('never tell where in the lot a sample not yet due will fall', () => {
    const told = labLife({ end: 'none' }).slice(0, 3);
    const lab = labWorkOfTold(told);
    const { labels } = labelSheet(lab, about);
    expect(labels).toHaveLength(7);
    expect(labels[0]?.lines.find(([name]) => name === 'Taken')).toEqual(['Taken', null]);
    expect(JSON.stringify(labels)).not.toMatch(/atKg|nonce/);
    expect(lab.plan?.text).toBeNull();
  });
});
