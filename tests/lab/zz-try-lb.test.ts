import { writeFileSync } from 'node:fs';
import { it } from 'vitest';
import { labLife, labWorkOfTold, labScenario, LOT } from '/work/main/tests/reports/support/lab.ts';
import { SEAL, shiftOf, sourceOf } from '/work/main/tests/reports/support/shift.ts';
import { makeReport } from '/work/main/machines/reports/report.ts';
import { envelopeOf, renderReport } from '/work/main/server/reports/render.ts';
import { labelSheet } from '/work/main/machines/reports/labels.ts';
import { labelsPdf } from '/work/main/server/reports/pdf/labels.ts';
const sets = { accepted: {}, rejected: { secondBinderPct: 4.2, end: 'rejected' }, concession: { secondBinderPct: 4.2, end: 'released by concession' } } as const;
for (const [name, life] of Object.entries(sets)) it(name, async () => {
  const told = labLife(life as never);
  const lab = labWorkOfTold(told);
  const source = sourceOf(shiftOf(told, { seal: SEAL, scenario: labScenario(), lab }));
  for (const kind of ['certificate', 'lot'] as const) {
    const made = makeReport(kind, source, { lot: LOT });
    if (!made.ok) throw new Error(made.why);
    writeFileSync(`/tmp/LB/${kind}-${name}.pdf`, await renderReport(envelopeOf(made.report), 'pdf'));
    writeFileSync(`/tmp/LB/${kind}-${name}.json`, await renderReport(envelopeOf(made.report), 'json'));
  }
  writeFileSync(`/tmp/LB/labels-${name}.pdf`, await labelsPdf(labelSheet(lab, { mix: 'emulsion-patch v1', family: 'emulsion', plant: 'Larkmoor Road Yard' })));
}, 60000);
