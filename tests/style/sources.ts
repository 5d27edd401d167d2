/** What the style tests read: the files of the project, and the imports and bare code inside them. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const NOT_OURS = new Set(['node_modules', '.build', '.data', '.git']);

const walk = (folder: string): string[] =>
  readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory()) return NOT_OURS.has(entry.name) ? [] : walk(path);
    return [path];
  });

/** What git would ship, new files included; in a copy without git, everything that is there. */
const listed = (): string[] => {
  if (!existsSync(join(ROOT, '.git'))) return walk('');
  const args = ['ls-files', '--cached', '--others', '--exclude-standard', '-z'];
  const names = execFileSync('git', args, { cwd: ROOT, encoding: 'utf8' }).split('\0');
  return names.filter((name) => name !== '' && existsSync(join(ROOT, name)));
};

export const FILES: readonly string[] = listed().sort();
export const CODE = FILES.filter((path) => /\.(ts|tsx|mjs)$/.test(path));
export const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

/** Code with comments and the insides of plain strings blanked, lines kept; `${…}` in templates stays. */
export function bareCode(text: string): string {
  const blank = (found: string): string => found.replace(/[^\n]/g, ' ');
  return text.replace(
    /\/\*[\s\S]*?\*\/|(?<![:\\])\/\/[^\n]*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g,
    (found) => blank(found),
  );
}

export type Import = { readonly from: string; readonly specifier: string; readonly typeOnly: boolean };

/** Every import and re-export of a file. `import { type A }` counts as a value: it still loads the file. */
export function importsOf(path: string, text: string): Import[] {
  const found: Import[] = [];
  const statement = /^\s*(?:import|export)\s+(type\s)?(?:[^'"`;]*?\sfrom\s+)?['"]([^'"]+)['"]/gm;
  for (const [, type, specifier = ''] of text.matchAll(statement))
    found.push({ from: path, specifier, typeOnly: type !== undefined });
  // import('./x.ts').Thing names a type; any other import(…) loads.
  for (const [, specifier = '', member] of text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]\s*\)(\.[A-Z])?/g))
    found.push({ from: path, specifier, typeOnly: member !== undefined });
  return found;
}

/** The project path a relative import leads to, or null for a package. */
export function resolveImport({ from, specifier }: Import): string | null {
  if (!specifier.startsWith('.')) return null;
  return new URL(specifier, `file:///${from}`).pathname.slice(1);
}

/** "path:line" of every match of `pattern` (global) in `text`. */
export function placesOf(path: string, text: string, pattern: RegExp): string[] {
  return [...text.matchAll(pattern)].map(
    (found) => `${path}:${text.slice(0, found.index).split('\n').length} ${found[0].trim()}`,
  );
}
