/** Reports of an eight-hour shift: made from the record, then written in each form. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ReportFilter, ReportKind } from '../../machines/reports/filter.ts';
import { line } from '../../server/line.ts';
import { FORMATS, renderReport, reportFrom } from '../../server/reports/render.ts';
import { runHeadless } from '../../server/runner/headless.ts';
import { loadShift } from '../../server/scenarios/load.ts';
import { openKey } from '../../server/seal/key-file.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { benchFolder, bestSeconds, type Figure } from './measure.ts';

const SHIFT = fileURLToPath(new URL('../../scenarios/shifts/demo-day.yaml', import.meta.url));
const TIMES = 3;

const ms = (id: string, what: string, seconds: number): Figure => ({
  id,
  what,
  value: seconds * 1000,
  unit: 'ms',
});

export async function benchReports(): Promise<Figure[]> {
  const folder = mkdtempSync(join(benchFolder(), 'reports-'));
  const { scenario } = loadShift(SHIFT);
  if (scenario === null) throw new Error('the demonstration day is not sound');
  const store = openSqliteStore(folder);
  try {
    await runHeadless({ engine: line, scenario, store, key: openKey(folder, null), onFact: () => undefined });
    const figures: Figure[] = [];
    const asks: readonly [ReportKind, ReportFilter, string][] = [
      ['shift', {}, 'shift report of 8 h'],
      ['batch', { batch: 12 }, 'batch sheet'],
      ['lot', { lot: '260414-1' }, 'lot file'],
      ['alarms', {}, 'alarm performance of 8 h'],
    ];
    for (const [kind, filter, words] of asks) {
      const envelope = await reportFrom(store, kind, filter);
      const make = await bestSeconds(TIMES, async () => {
        await reportFrom(store, kind, filter);
      });
      figures.push(ms(`reports.${kind}.make`, `${words}: read and made`, make));
      for (const format of FORMATS) {
        const write = await bestSeconds(TIMES, async () => {
          await renderReport(envelope, format);
        });
        figures.push(ms(`reports.${kind}.${format}`, `${words}: written as ${format.toUpperCase()}`, write));
      }
    }
    return figures;
  } finally {
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
