/** The command line: one word a command, one-line errors, exit codes 0 (done), 1 (failed), 2 (called wrongly). */
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ARCHIVE_HELP, archiveCommand } from './commands/archive.ts';
import { BACKUP_HELP, backupCommand } from './commands/backup.ts';
import { CHECK_HELP, checkCommand } from './commands/check.ts';
import { DRILL_HELP, drillCommand } from './commands/drill.ts';
import { EXPORT_HELP, exportCommand } from './commands/export.ts';
import { KEY_HELP, keyCommand } from './commands/key.ts';
import { UsageError } from './commands/options.ts';
import { PAGE_HELP, pageCommand } from './commands/page.ts';
import { PROVE_HELP, proveCommand } from './commands/prove.ts';
import { REBUILD_HELP, rebuildCommand } from './commands/rebuild.ts';
import { REPORT_HELP, reportCommand } from './commands/report.ts';
import { RESTORE_HELP, restoreCommand } from './commands/restore.ts';
import { RUN_HELP, runCommand } from './commands/run.ts';
import { SERVE_HELP, serveCommand } from './commands/serve.ts';
import { TRACE_HELP, traceCommand } from './commands/trace.ts';
import { VERIFY_HELP, verifyCommand } from './commands/verify.ts';
import { PlainError } from './plain-error.ts';

const COMMANDS: {
  readonly [name: string]: {
    readonly what: string;
    readonly help: string;
    readonly go: (args: readonly string[]) => Promise<number>;
  };
} = {
  serve: { what: 'run a shift and its console', help: SERVE_HELP, go: serveCommand },
  run: { what: 'run a whole shift headless', help: RUN_HELP, go: runCommand },
  check: { what: 'check scenario files', help: CHECK_HELP, go: checkCommand },
  drill: { what: 'work a drill headless and score it', help: DRILL_HELP, go: drillCommand },
  export: { what: 'write one shift as one file', help: EXPORT_HELP, go: exportCommand },
  prove: { what: 'prove that a lot, batch or entry was sealed', help: PROVE_HELP, go: proveCommand },
  key: { what: 'show or change the key that seals', help: KEY_HELP, go: keyCommand },
  verify: { what: 'check an export, a proof or a whole record', help: VERIFY_HELP, go: verifyCommand },
  report: { what: 'a report from the record: PDF, CSV or JSON', help: REPORT_HELP, go: reportCommand },
  trace: { what: 'where material went, or what a patch is made of', help: TRACE_HELP, go: traceCommand },
  backup: { what: 'copy the record, also while a server runs', help: BACKUP_HELP, go: backupCommand },
  archive: { what: 'move old sealed shifts to files', help: ARCHIVE_HELP, go: archiveCommand },
  restore: { what: 'bring an archived shift back', help: RESTORE_HELP, go: restoreCommand },
  rebuild: { what: 'make the index again from the record', help: REBUILD_HELP, go: rebuildCommand },
  page: { what: 'write a page that stands alone', help: PAGE_HELP, go: pageCommand },
};

const HELP = `patchyard <command> [options]

A simulator, trainer and record keeper for a small plant making cold patching mix.
Not a safety-rated controller.

${Object.entries(COMMANDS)
  .map(([name, { what }]) => `  ${name.padEnd(8)} ${what}`)
  .join('\n')}

patchyard <command> --help tells more.`;

/** Runs one command; returns the exit code. Never throws. */
export const main = async (argv: readonly string[]): Promise<number> => {
  const [name, ...rest] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    const asked = name === 'help' ? COMMANDS[rest[0] ?? ''] : undefined;
    console.log(asked?.help ?? HELP);
    return name === undefined ? 2 : 0;
  }
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command === undefined) {
    console.error(`There is no command ${name}: the commands are ${Object.keys(COMMANDS).join(', ')}.`);
    return 2;
  }
  try {
    return await command.go(rest);
  } catch (error) {
    if (error instanceof UsageError) {
      console.error(`${error.message} See: patchyard ${name} --help`);
      return 2;
    }
    if (error instanceof PlainError) console.error(error.message);
    else console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
    return 1;
  }
};

// Run as a program, built or from sources, rather than imported by a test.
if (process.argv[1] !== undefined && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url))
  process.exitCode = await main(process.argv.slice(2));
