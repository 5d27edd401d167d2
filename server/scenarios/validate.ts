/** Holds a YAML file against its schema and says what is wrong, line by line. */
import type { z } from 'zod';
import { allowedAt } from './allowed.ts';
import { type Finding, pathText, type YamlFile, type YamlPath } from './yaml-file.ts';

type Issue = z.core.$ZodIssue;

const wordsOf = (issue: Issue, data: unknown): string => {
  switch (issue.code) {
    case 'invalid_type':
      return data === undefined ? 'is missing' : `is ${JSON.stringify(data)?.slice(0, 60)}`;
    case 'invalid_value':
      return data === undefined ? 'is missing' : `${JSON.stringify(data)?.slice(0, 60)} is not known here`;
    case 'too_small':
    case 'too_big':
      return Array.isArray(data)
        ? `holds ${data.length} entries: ${issue.message.toLowerCase()}`
        : `${JSON.stringify(data)?.slice(0, 60)} is ${issue.code === 'too_small' ? 'too small' : 'too large'}`;
    default:
      return issue.message;
  }
};

const valueAt = (data: unknown, path: YamlPath): unknown =>
  path.reduce<unknown>(
    (value, step) => (typeof value === 'object' && value !== null ? (value as never)[step] : undefined),
    data,
  );

const findingsOf = (yaml: YamlFile, schema: z.ZodType, issue: Issue): Finding[] => {
  const path = issue.path.filter((step) => typeof step !== 'symbol') as (string | number)[];
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({
      file: yaml.file,
      ...yaml.positionOf(path, key),
      path: pathText([...path, key]),
      what: 'is no key that belongs here',
      allowed: allowedAt(schema, yaml.data, path),
    }));
  // A union without a fitting option: the key that tells the options apart is what is wrong.
  const key =
    issue.code === 'invalid_union' && typeof issue.discriminator === 'string' ? issue.discriminator : null;
  const place = key !== null && path.at(-1) !== key ? [...path, key] : path;
  const value = valueAt(yaml.data, place);
  const own = issue.code === 'custom' || issue.code === 'invalid_format';
  return [
    {
      file: yaml.file,
      ...yaml.positionOf(place),
      path: pathText(place),
      what:
        issue.code === 'invalid_union'
          ? value === undefined
            ? 'is missing'
            : `${JSON.stringify(value)?.slice(0, 60)} is not known here`
          : wordsOf(issue, value),
      allowed: own ? '' : allowedAt(schema, yaml.data, place),
    },
  ];
};

export type Validated<T> = { readonly value: T | null; readonly findings: readonly Finding[] };

export const validate = <S extends z.ZodType>(yaml: YamlFile, schema: S): Validated<z.output<S>> => {
  if (yaml.findings.length > 0) return { value: null, findings: yaml.findings };
  const parsed = schema.safeParse(yaml.data);
  if (parsed.success) return { value: parsed.data, findings: [] };
  return { value: null, findings: parsed.error.issues.flatMap((issue) => findingsOf(yaml, schema, issue)) };
};

/** "mixes/a.yaml:12:7 binder.dosePct: 99 is too large (allowed: a number above 0 up to 15)" */
export const findingText = (f: Finding): string =>
  `${f.file}:${f.line}:${f.column} ${f.path === '' ? '' : `${f.path}: `}${f.what}${f.allowed === '' ? '' : ` (allowed: ${f.allowed})`}`;
