/** A few minutes of a real shift, worked by the stand-in, recorded and sealed in a data folder of its own. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';
import { exportShift, spanNamed } from '../../../server/export/export-shift.ts';
import { line } from '../../../server/line.ts';
import { SCENARIOS_FOLDER } from '../../../server/package-root.ts';
import { runHeadless } from '../../../server/runner/headless.ts';
import { scenarioOrError } from '../../../server/scenarios/load.ts';
import { openKey } from '../../../server/seal/key-file.ts';
import { expectedKey } from '../../../server/seal/seals-of.ts';
import { openSqliteStore } from '../../../server/store/sqlite.ts';

/** The shipped emulsion day, cut to some minutes. */
export const shortScenario = (minutes: number): Scenario => {
  const scenario = scenarioOrError(join(SCENARIOS_FOLDER, 'shifts', 'emulsion-day.yaml'));
  return { ...scenario, shift: { ...scenario.shift, hours: minutes / 60 } };
};

/** Records shifts one after another into `folder`. */
export const recordShift = async (folder: string, minutes: number): Promise<void> => {
  const store = openSqliteStore(folder);
  try {
    const key = openKey(folder, await expectedKey(store));
    const result = await runHeadless({
      engine: line,
      scenario: shortScenario(minutes),
      store,
      key,
      onFact: () => undefined,
    });
    if (!result.ended || result.seal === null) throw new Error('the shift was not ended and sealed');
  } finally {
    await store.close();
  }
};

export const exportBytes = async (folder: string, shift: string): Promise<Buffer> => {
  const store = openSqliteStore(folder);
  try {
    const pieces: Uint8Array[] = [];
    for await (const piece of exportShift(store, await spanNamed(store, shift))) pieces.push(piece);
    return Buffer.concat(pieces);
  } finally {
    await store.close();
  }
};

export const tempFolder = (): { readonly path: string; readonly remove: () => void } => {
  const path = mkdtempSync(join(tmpdir(), 'patchyard-record-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
};
