/** Every figure in the plant and mix files says where it comes from, on its line or on the head of its group. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const MARK = /published: |common practice, no source|from memory|invented for the demonstration/;
/** A published figure names the standard, the regulation or the table. */
const NAMED = /published: .*(ASTM|AASHTO|UFC|NFPA|EN \d|CFR|IS \d|AEMA|NIOSH)/;
/** What a file, a thing or a person's list is called, and text: no figures. */
const NAMES = /^(- )?\{? ?(kind|id|version|name|size|contents|grade|family|basis):/;

type Line = { readonly no: number; readonly indent: number; readonly text: string; readonly comment: string };

const linesOf = (yaml: string): Line[] =>
  yaml.split('\n').flatMap((raw, i) => {
    const [, spaces = '', body = ''] = /^( *)(.*)$/.exec(raw) ?? [];
    const at = body.search(/(^| )# /);
    const text = (at < 0 ? body : body.slice(0, at)).trim();
    return text === ''
      ? []
      : [{ no: i + 1, indent: spaces.length, text, comment: at < 0 ? '' : body.slice(at) }];
  });

/** Lines with a figure that neither they nor a head above them mark. */
const unmarked = (yaml: string): string[] => {
  const heads: Line[] = [];
  const bare: string[] = [];
  let folded = Number.POSITIVE_INFINITY;
  for (const line of linesOf(yaml)) {
    // The text of a folded block is words, whatever numbers stand in it.
    if (line.indent > folded) continue;
    folded = />-?$/.test(line.text) ? line.indent : Number.POSITIVE_INFINITY;
    while ((heads.at(-1)?.indent ?? -1) >= line.indent) heads.pop();
    heads.push(line);
    const figure = /:\s*-?\d|\[.*\d/.test(line.text) && !(NAMES.test(line.text) && !line.text.includes('{'));
    if (figure && !heads.some(({ comment }) => MARK.test(comment))) bare.push(`${line.no}: ${line.text}`);
  }
  return bare;
};

const FILES = ['plants', 'mixes'].flatMap((name) => {
  const url = new URL(`../../scenarios/${name}/`, import.meta.url);
  return readdirSync(url).map(
    (file) => [`${name}/${file}`, readFileSync(new URL(file, url), 'utf8')] as const,
  );
});

describe('the check itself', () => {
  it('finds a figure without a mark, under a head without one, and in a list', () => {
    expect(
      unmarked('a: 1\nb: # from memory\n  c: 2\nd:\n  - { e: 3 }\nid: x-1\nf: { g: 4 } # from memory'),
    ).toEqual(['1: a: 1', '5: - { e: 3 }']);
  });
});

describe.each(FILES)('%s', (_file, yaml) => {
  it('marks every figure', () => {
    expect(linesOf(yaml).filter(({ text }) => /:\s*-?\d/.test(text)).length).toBeGreaterThan(15);
    expect(unmarked(yaml)).toEqual([]);
  });

  it('names what it calls published', () => {
    const published = yaml
      .split('\n')
      .filter((line) => line.includes('# published: ') || /; published: /.test(line));
    expect(published.length).toBeGreaterThan(0);
    expect(published.filter((line) => !NAMED.test(line))).toEqual([]);
  });
});
