/** Says in words what a schema allows at a place, for error messages. */
import { z } from 'zod';
import type { YamlPath } from './yaml-file.ts';

type JsonSchema = {
  readonly type?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly properties?: { readonly [key: string]: JsonSchema };
  readonly items?: JsonSchema;
  readonly prefixItems?: readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly pattern?: string;
  readonly minLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly format?: string;
};

const known = new WeakMap<z.ZodType, JsonSchema>();
const jsonSchemaOf = (schema: z.ZodType): JsonSchema => {
  let json = known.get(schema);
  if (json === undefined) {
    json = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', reused: 'inline' }) as JsonSchema;
    known.set(schema, json);
  }
  return json;
};

const optionsOf = (schema: JsonSchema): readonly JsonSchema[] => schema.oneOf ?? schema.anyOf ?? [];

/** Options of a union that do not contradict the data: their fixed fields match what is written. */
const fitting = (schema: JsonSchema, data: unknown): readonly JsonSchema[] => {
  const options = optionsOf(schema);
  if (options.length === 0) return [schema];
  const record = typeof data === 'object' && data !== null ? (data as { [key: string]: unknown }) : {};
  const fits = options.filter((option) =>
    Object.entries(option.properties ?? {}).every(
      ([key, field]) => field.const === undefined || field.const === record[key],
    ),
  );
  return fits.length > 0 ? fits : options;
};

const schemasAt = (schema: JsonSchema, data: unknown, path: YamlPath): readonly JsonSchema[] => {
  const here = fitting(schema, data);
  const [step, ...rest] = path;
  if (step === undefined) return here;
  const inner = typeof data === 'object' && data !== null ? (data as never)[step] : undefined;
  return here.flatMap((option) => {
    const next =
      typeof step === 'number' ? (option.prefixItems?.[step] ?? option.items) : option.properties?.[step];
    return next === undefined ? [] : schemasAt(next, inner, rest);
  });
};

const rangeText = (s: JsonSchema, noun: string): string => {
  // zod writes the bounds of a safe integer where a file gives none; they say nothing to a person.
  const real = (n: number | undefined) =>
    n === undefined || Math.abs(n) >= Number.MAX_SAFE_INTEGER ? undefined : n;
  const low = real(s.minimum);
  const high = real(s.maximum);
  const above = real(s.exclusiveMinimum);
  const below = real(s.exclusiveMaximum);
  const parts = [
    low !== undefined && high !== undefined ? `from ${low} to ${high}` : '',
    low !== undefined && high === undefined ? `${low} or more` : '',
    above !== undefined ? `above ${above}` : '',
    low === undefined && high !== undefined ? `up to ${high}` : '',
    below !== undefined ? `below ${below}` : '',
  ].filter((part) => part !== '');
  return [noun, ...parts].join(' ');
};

const describe = (s: JsonSchema): string => {
  if (s.const !== undefined) return String(s.const);
  if (s.enum !== undefined) return s.enum.map(String).join(', ');
  if (s.type === 'integer') return rangeText(s, 'a whole number');
  if (s.type === 'number') return rangeText(s, 'a number');
  if (s.type === 'boolean') return 'true, false';
  if (s.type === 'null') return 'null';
  if (s.type === 'string' && s.format === 'date') return 'a date as YYYY-MM-DD';
  if (s.type === 'string') return s.pattern !== undefined ? `text of the form ${s.pattern}` : 'text';
  if (s.type === 'array') return 'a list';
  if (s.properties !== undefined) return `the keys ${Object.keys(s.properties).join(', ')}`;
  return optionsOf(s).map(describe).join(' or ');
};

/** What may stand at `path` of a file with this content; '' when nothing can be said. */
export const allowedAt = (schema: z.ZodType, data: unknown, path: YamlPath): string => {
  const words = schemasAt(jsonSchemaOf(schema), data, path).map(describe);
  return [...new Set(words)].filter((word) => word !== '').join(' or ');
};
