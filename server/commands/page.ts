/** `page`: writes one of the pages that stand alone, as one HTML file. */
import { copyFile, stat } from 'node:fs/promises';
import { PAGES, type PageName, pageFile } from '../pages.ts';
import { codeOf, messageOf, PlainError } from '../plain-error.ts';
import { readOptions, textOption, UsageError } from './options.ts';

export const PAGE_HELP = `patchyard page <${PAGES.join('|')}> --out FILE

Writes a page that works from a disk, offline, in any newer browser; it sends nothing anywhere.

  viewer      replays and checks an export of a shift
  interlock   the flame interlock, explained, with its causes and effects

  --out FILE  the HTML file to write; one that is there is replaced
  -h, --help  this text`;

const isPage = (name: string): name is PageName => PAGES.some((page) => page === name);

export const pageCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, { out: { type: 'string' } });
  if (values.help === true) {
    console.log(PAGE_HELP);
    return 0;
  }
  const [name] = files;
  if (name === undefined || files.length > 1)
    throw new UsageError(`page takes the name of one page: ${PAGES.join(' or ')}.`);
  if (!isPage(name)) throw new UsageError(`There is no page ${name}: there are ${PAGES.join(' and ')}.`);
  const out = textOption(values, 'out');
  if (out === undefined) throw new UsageError('page needs --out, the file to write.');
  try {
    await copyFile(pageFile(name), out);
  } catch (error) {
    const missing = codeOf(error) === 'ENOENT' && !(await stat(pageFile(name)).catch(() => null));
    throw new PlainError(
      missing
        ? `The page ${name} has not been built: run this as npm run -s patchyard -- page ${name}, which builds it.`
        : `${out} cannot be written: ${messageOf(error)}. Name another file with --out.`,
    );
  }
  console.log(
    `${out} (${((await stat(out)).size / 1e6).toFixed(1)} MB): open it in a browser, no server needed.`,
  );
  return 0;
};
