/** The command line: one word a command, one-line errors, exit codes 0 (done), 1 (failed), 2 (called wrongly). */
import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { CHECK_HELP, checkCommand } from './commands/check.ts';
import { UsageError } from './commands/options.ts';
import { RUN_HELP, runCommand } from './commands/run.ts';
import { SERVE_HELP, serveCommand } from './commands/serve.ts';
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
  verify: { what: 'check the chain of a record', help: VERIFY_HELP, go: verifyCommand },
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
