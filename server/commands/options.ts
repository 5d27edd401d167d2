/** Reads command-line options and says what is wrong with them. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { messageOf } from '../plain-error.ts';

/** Wrong use of a command: exit code 2 and a hint at --help. */
export class UsageError extends Error {
  override name = 'UsageError';
}

type Options = NonNullable<ParseArgsConfig['options']>;
export type Values = { readonly [name: string]: string | boolean | undefined };

/** Splits arguments into options and files; every command also knows --help. */
export const readOptions = (
  args: readonly string[],
  options: Options,
): { values: Values; files: readonly string[] } => {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { ...options, help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
    });
    return { values: values as Values, files: positionals };
  } catch (error) {
    throw new UsageError(messageOf(error).replace(/\. To specify.*$/, '.'));
  }
};

/** The text of an option, undefined when it was not given; UsageError when it was given empty. */
export const textOption = (values: Values, name: string): string | undefined => {
  const value = values[name];
  if (value === '') throw new UsageError(`--${name} needs a value.`);
  return typeof value === 'string' ? value : undefined;
};

/** A whole number within bounds, or UsageError. */
export const numberOption = (values: Values, name: string, from: number, to: number): number | undefined => {
  const text = textOption(values, name);
  if (text === undefined) return undefined;
  const value = Number(text);
  if (text.trim() === '' || !Number.isInteger(value) || value < from || value > to)
    throw new UsageError(`--${name} ${text} is not a whole number from ${from} to ${to}.`);
  return value;
};
