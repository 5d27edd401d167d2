/** Formulas as they stand in the working, worked out from their own text: what is shown is what was computed. */
import { plain } from './rounding.ts';

export type Symbols = Readonly<Record<string, number>>;

type Token = { readonly is: 'number' | 'name' | 'sign'; readonly text: string };

const TOKEN = /\s*(?:(\d+(?:\.\d+)?)|([A-Za-zπΣ][A-Za-z0-9]*)|([+−×÷()]))/gy;

const tokensOf = (formula: string): Token[] => {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < formula.length) {
    const found = TOKEN.exec(formula);
    if (found === null) throw new Error(`not a formula: ${formula}`);
    const [, number, name, sign] = found;
    if (number !== undefined) tokens.push({ is: 'number', text: number });
    else if (name !== undefined) tokens.push({ is: 'name', text: name });
    else tokens.push({ is: 'sign', text: sign as string });
  }
  return tokens;
};

const valueOfName = (name: string, symbols: Symbols): number => {
  const value = name === 'π' ? Math.PI : symbols[name];
  if (value === undefined) throw new Error(`the formula's ${name} has no value`);
  return value;
};

/**
 * Value of a formula with + − × ÷, brackets, numbers, π and symbols. Throws on a formula that is none or on a
 * symbol without a value: both are mistakes in a sheet, never in a reading. Division by 0 gives Infinity or NaN.
 */
export const evaluate = (formula: string, symbols: Symbols): number => {
  const tokens = tokensOf(formula);
  let at = 0;
  const sign = (): string | null => (tokens[at]?.is === 'sign' ? (tokens[at] as Token).text : null);

  const factor = (): number => {
    const token = tokens[at];
    if (token === undefined) throw new Error(`the formula breaks off: ${formula}`);
    at += 1;
    if (token.is === 'number') return Number(token.text);
    if (token.is === 'name') return valueOfName(token.text, symbols);
    if (token.text === '−') return -factor();
    if (token.text !== '(') throw new Error(`unexpected ${token.text} in ${formula}`);
    const inside = sum();
    if (sign() !== ')') throw new Error(`a bracket is not closed: ${formula}`);
    at += 1;
    return inside;
  };
  const product = (): number => {
    let value = factor();
    while (sign() === '×' || sign() === '÷') {
      const times = sign() === '×';
      at += 1;
      value = times ? value * factor() : value / factor();
    }
    return value;
  };
  const sum = (): number => {
    let value = product();
    while (sign() === '+' || sign() === '−') {
      const plus = sign() === '+';
      at += 1;
      value = plus ? value + product() : value - product();
    }
    return value;
  };

  const value = sum();
  if (at < tokens.length) throw new Error(`not a formula: ${formula}`);
  return value;
};

/** Parts of a line of working: `M = W − D` is what follows the sign, called what stands before it. */
export const partsOf = (line: string): { readonly symbol: string; readonly formula: string } => {
  const [symbol, formula, ...more] = line.split(' = ');
  if (symbol === undefined || formula === undefined || more.length > 0)
    throw new Error(`not a line of working: ${line}`);
  return { symbol, formula };
};

/** The formula with its numbers put in; a negative one in brackets. */
export const withNumbers = (formula: string, symbols: Symbols): string =>
  formula.replace(/[A-Za-zΣ][A-Za-z0-9]*/g, (name) => {
    const value = valueOfName(name, symbols);
    return value < 0 ? `(${plain(value)})` : plain(value);
  });
