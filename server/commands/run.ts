/** `run`: a whole shift without a console, as fast as the machine can. */
import { line } from '../line.ts';
import { codeOf, PlainError } from '../plain-error.ts';
import { runHeadless } from '../runner/headless.ts';
import { createTally } from '../runner/report.ts';
import { whyNotWritten } from '../runner/trouble.ts';
import { scenarioOrError } from '../scenarios/load.ts';
import { openKey } from '../seal/key-file.ts';
import { expectedKey } from '../seal/seals-of.ts';
import { openChainOnlyStore } from '../store/chain-only.ts';
import { openSqliteStore } from '../store/sqlite.ts';
import type { Store } from '../store/store.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';
import { createProgress } from './progress.ts';
import { isWeekFile, runWeekFile } from './run-week.ts';

export const RUN_HELP = `patchyard run <shift.yaml | week.yaml> [options]

Runs a shift headless with the stand-in operator the file names, and prints what came of it. A week file
(kind: week) runs a shift a day in one record with a seeded laboratory at work beside the line: it prints
each lot's verdict and results, and what the control charts found.
The same file and seed give the same record, to the last hash, on the same machine.

  --seed N        takes the place of the file's seed (0 to 4294967295)
  --data FOLDER   keep the record there; without it only the end of its chain is kept
  --record none   make no record at all
  --json          print one JSON object on stdout
  -h, --help      this text

massBalanceErrorKg is what the line's books fail to close by, in weighed whole grams;
truth.massErrorKg is what the simulated plant's own balance fails to close by, unweighed.
Exit code 0 when the shift ended; 1 when something was wrong, or when the shift had not ended two
hours after its time and was broken off (the figures are printed all the same); 2 when called wrongly.`;

const openStore = (data: string | undefined, record: string | undefined): Store | null => {
  if (record !== undefined && record !== 'none' && record !== 'chain')
    throw new UsageError(`--record ${record} is not one of none, chain.`);
  if (data !== undefined && record !== undefined)
    throw new UsageError('--data and --record exclude each other.');
  if (record === 'none') return null;
  return data === undefined ? openChainOnlyStore() : openSqliteStore(data);
};

export const runCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    seed: { type: 'string' },
    data: { type: 'string' },
    record: { type: 'string' },
    json: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(RUN_HELP);
    return 0;
  }
  const [file] = files;
  if (file === undefined || files.length > 1) throw new UsageError('run needs one shift file.');
  const seed = numberOption(values, 'seed', 0, 0xffffffff);
  if (isWeekFile(file)) {
    if (values.record === 'none')
      throw new UsageError('A week needs a record: the lab works from it. Leave out --record none.');
    const [data, record] = [textOption(values, 'data'), textOption(values, 'record')];
    return runWeekFile(file, { seed, data, json: values.json === true }, () => openStore(data, record));
  }
  const scenario = scenarioOrError(file, seed === undefined ? {} : { seed });
  if (scenario.shift.standIn === undefined)
    throw new PlainError(
      `${file} names no stand-in operator (standIn), and nobody else would lead it headless.`,
    );
  const store = openStore(textOption(values, 'data'), textOption(values, 'record'));
  const data = textOption(values, 'data');
  const key = data === undefined || store === null ? null : openKey(data, await expectedKey(store));
  const tally = createTally();
  const progress = createProgress(process.stderr, scenario.shift.name);
  const startedMs = performance.now();
  try {
    const result = await runHeadless({
      engine: line,
      scenario,
      store,
      ...(key === null ? {} : { key }),
      onFact: tally.add,
      onProgress: progress.show,
    }).catch((error) => {
      if (data === undefined || !codeOf(error).startsWith('SQLITE_')) throw error;
      throw new PlainError(
        `The record in ${data} cannot be written: ${whyNotWritten(error)}. What was written is whole; the shift stands there unfinished.`,
      );
    });
    const wallSeconds = Math.round(performance.now() - startedMs) / 1000;
    progress.clear();
    const report = {
      shift: scenario.shift.id,
      seed: scenario.shift.seed,
      ended: result.ended,
      plantSeconds: result.world.atMs / 1000,
      wallSeconds,
      ...tally.report(result.view),
      ...(line.truthOf === undefined ? {} : { truth: line.truthOf(result.world) }),
      entries: result.entries,
      head: result.head,
      seal: result.seal,
    };
    if (values.json === true) console.log(JSON.stringify(report));
    else console.log(inWords(report));
    if (result.ended) return 0;
    console.error(
      `${file}: the stand-in had not ended the shift two hours after its time; it was broken off.`,
    );
    return 1;
  } finally {
    progress.clear();
    await store?.close();
  }
};

type Report = ReturnType<ReturnType<typeof createTally>['report']> & {
  readonly shift: string;
  readonly seed: number;
  readonly plantSeconds: number;
  readonly wallSeconds: number;
  readonly truth?: { readonly massErrorKg: number };
  readonly entries: number;
  readonly head: string | null;
  readonly seal: { readonly seq: number; readonly root: string; readonly key: string } | null;
};

const inWords = (r: Report): string =>
  [
    `Shift ${r.shift}, seed ${r.seed}: ${(r.plantSeconds / 3600).toFixed(2)} h of plant time in ${r.wallSeconds} s`,
    `Batches ${r.batches} (${r.batchesDumped} dumped), trips ${r.trips}, alarms ${r.alarms}, samples ${r.samples} (${r.samplesMissed} missed)`,
    ...r.lots.map(
      (lot) =>
        `  lot ${lot.id}  ${lot.family}  ${(lot.massKg / 1000).toFixed(3)} t  ${lot.batches} batches  ${lot.state}`,
    ),
    `Mass in ${r.massInKg.toFixed(3)} kg = out ${r.massOutKg.toFixed(3)} + held ${r.massHeldKg.toFixed(3)}, error ${r.massBalanceErrorKg.toFixed(3)} kg`,
    ...(r.truth === undefined
      ? []
      : [
          `The simulated plant's own balance closes within ${Math.abs(r.truth.massErrorKg).toExponential(1)} kg`,
        ]),
    `Refusals ${r.refusals.length}`,
    ...r.refusals
      .slice(0, 20)
      .map((refusal) => `  ${refusal.at} ${refusal.command}: ${refusal.because.join('; ')}`),
    ...(r.refusals.length > 20 ? [`  … and ${r.refusals.length - 20} more (--json shows all)`] : []),
    r.head === null ? 'No record was made.' : `Record: ${r.entries} entries, head ${r.head}`,
    ...(r.seal === null ? [] : [`Sealed by entry ${r.seal.seq}: root ${r.seal.root}, key ${r.seal.key}`]),
  ].join('\n');
