/** Reads a YAML file with the positions of its values, so that a finding can name the line. */
import { readFileSync } from 'node:fs';
import { type Document, isMap, isScalar, LineCounter, type Node, parseDocument } from 'yaml';
import { codeOf, messageOf } from '../plain-error.ts';

/** One thing wrong with a file. Lines and columns count from 1. */
export type Finding = {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** "binder.dosePct"; '' for the whole file. */
  readonly path: string;
  readonly what: string;
  /** What may stand there, in words; '' when that cannot be said. */
  readonly allowed: string;
};

export type YamlPath = readonly (string | number)[];

export type YamlFile = {
  readonly file: string;
  readonly data: unknown;
  readonly findings: readonly Finding[];
  /** Position of a value, or of its nearest ancestor that is there. With `key`, of that key in it. */
  readonly positionOf: (path: YamlPath, key?: string) => { line: number; column: number };
};

const BYTES_LIMIT = 1_000_000;

export const pathText = (path: YamlPath): string =>
  path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : text === '' ? step : `${text}.${step}`),
    '',
  );

const failed = (file: string, what: string): YamlFile => ({
  file,
  data: null,
  findings: [{ file, line: 1, column: 1, path: '', what, allowed: '' }],
  positionOf: () => ({ line: 1, column: 1 }),
});

const startOf = (doc: Document, path: YamlPath, key: string | undefined): number => {
  for (let length = path.length; length >= 0; length--) {
    const node = (length === 0 ? doc.contents : doc.getIn(path.slice(0, length), true)) as
      | Node
      | null
      | undefined;
    if (node === null || node === undefined || node.range === undefined || node.range === null) continue;
    if (key !== undefined && length === path.length && isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === key);
      const range = pair !== undefined && isScalar(pair.key) ? pair.key.range : null;
      if (range) return range[0];
    }
    return node.range[0];
  }
  return 0;
};

export const readYaml = (file: string): YamlFile => {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    const code = codeOf(error);
    return failed(
      file,
      code === 'ENOENT' ? 'there is no such file' : `cannot be read (${code || messageOf(error)})`,
    );
  }
  if (text.length > BYTES_LIMIT) return failed(file, 'is larger than 1 MB: no scenario file is');
  const lines = new LineCounter();
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const findings = [...doc.errors, ...doc.warnings].map((error) => ({
    file,
    ...at(error.pos[0]),
    path: '',
    what: error.message,
    allowed: '',
  }));
  let data: unknown = null;
  if (findings.length === 0) {
    try {
      data = doc.toJS({ maxAliasCount: 100 });
    } catch (error) {
      return failed(file, messageOf(error));
    }
  }
  return { file, data, findings, positionOf: (path, key) => at(startOf(doc, path, key)) };
};
