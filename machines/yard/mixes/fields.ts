/** The plain fields of a mix file by their path, read and written without changing the mix they came from. */
import type { Mix } from '../../scenario/mix.schema.ts';

type Loose = { readonly [key: string]: unknown };

const isLoose = (value: unknown): value is Loose => typeof value === 'object' && value !== null;

/** Lists count from 1 in a path: binder.viscosity.2.mm2S. */
const stepInto = (value: unknown, key: string): unknown =>
  Array.isArray(value) ? value[Number(key) - 1] : isLoose(value) ? value[key] : undefined;

/** The value at a path, or undefined where the mix has none. */
export const fieldAt = (mix: Mix, path: string): unknown =>
  path.split('.').reduce<unknown>((value, key) => stepInto(value, key), mix);

const put = (value: unknown, keys: readonly string[], now: unknown): unknown => {
  const [key, ...rest] = keys;
  if (key === undefined) return now;
  if (Array.isArray(value)) return value.map((one, i) => (i === Number(key) - 1 ? put(one, rest, now) : one));
  const loose = isLoose(value) ? value : {};
  if (rest.length === 0 && now === undefined) {
    const { [key]: _, ...others } = loose;
    return others;
  }
  return { ...loose, [key]: put(loose[key], rest, now) };
};

/** The mix with another value at a path; undefined takes the field away. What it says is checked by its schema later. */
export const withField = (mix: Mix, path: string, now: string | number | undefined): Mix =>
  put(mix, path.split('.'), now) as Mix;
