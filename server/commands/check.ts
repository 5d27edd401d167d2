/** `check`: holds a scenario file against its schema and says what is wrong, line by line. */
import { checkFile, KINDS, shownPath } from '../scenarios/load.ts';
import { findingText } from '../scenarios/validate.ts';
import { readOptions, UsageError } from './options.ts';

export const CHECK_HELP = `patchyard check <file.yaml> [more files]

Checks scenario files (${KINDS.join(', ')}); a shift is checked with every file it names.
Each finding names the file, line, column and path, and what may stand there.
A mix is held against the specification it names: where its doses and the limits
contradict each other a note says so with the figures. Notes do not count as wrong.
Exit code 0 when all is well, 1 when something is wrong, 2 when called wrongly.

  -h, --help   this text`;

export const checkCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {});
  if (values.help === true) {
    console.log(CHECK_HELP);
    return 0;
  }
  if (files.length === 0) throw new UsageError('check needs a file.');
  let bad = 0;
  for (const file of files) {
    const { kind, findings, notes = [] } = checkFile(file);
    for (const finding of findings) console.error(findingText(finding));
    for (const note of notes) console.error(`note: ${findingText(note)}`);
    if (findings.length > 0) bad += 1;
    else console.log(`${shownPath(file)}: a sound ${kind} file`);
  }
  return bad === 0 ? 0 : 1;
};
