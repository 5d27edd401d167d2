/**
 * Each line of the gate that holds an element, left out: the text of the gate itself is changed and run, so that a
 * new line cannot be forgotten here.
 */
import { readFileSync } from 'node:fs';
import { transformSync } from 'esbuild';
import * as burner from '../../../machines/charts/burner/burner.guards.ts';
import * as safeguards from '../../../machines/charts/burner/burner.safeguards.ts';
import * as elements from '../../../machines/charts/flame-interlock/flame-interlock.elements.ts';
import * as interlock from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import * as tank from '../../../machines/charts/tank-interlock/tank-interlock.guards.ts';
import * as outputs from '../../../machines/field/outputs.ts';
import { type Gate, gateDiffers, huntGate } from './gate-hunt.ts';
import type { Mutation } from './mutation.ts';

const SOURCE = readFileSync(new URL('../../../machines/line/gate.ts', import.meta.url), 'utf8');

const MODULES: { readonly [name: string]: unknown } = {
  'burner.guards.ts': burner,
  'burner.safeguards.ts': safeguards,
  'flame-interlock.elements.ts': elements,
  'flame-interlock.guards.ts': interlock,
  'tank-interlock.guards.ts': tank,
  'outputs.ts': outputs,
};

/** The gate of a changed text, over the true data and guards. */
const gateOf = (text: string): Gate => {
  const { code } = transformSync(text, { loader: 'ts', format: 'cjs', target: 'es2022' });
  const module = { exports: {} as { gate?: Gate } };
  const need = (specifier: string): unknown => {
    const found = MODULES[specifier.split('/').at(-1) ?? ''];
    if (found === undefined) throw new Error(`the gate imports ${specifier}: name it in MODULES`);
    return found;
  };
  new Function('module', 'exports', 'require', code)(module, module.exports, need);
  if (module.exports.gate === undefined) throw new Error('the changed text exports no gate');
  return module.exports.gate;
};

type Cut = { readonly line: number; readonly told: string; readonly text: string };

/** Every call of `hold(…)` and `holdFuel(…)`, each replaced by nothing in a text of its own. */
export const cutsOf = (source: string): readonly Cut[] => {
  const calls = /(?<!const |\w)(hold|holdFuel)\(/g;
  const cuts: Cut[] = [];
  for (const match of source.matchAll(calls)) {
    let depth = 0;
    let end = match.index;
    do {
      const letter = source[end];
      if (letter === '(') depth += 1;
      if (letter === ')') depth -= 1;
      end += 1;
    } while (depth > 0 || source[end - 1] !== ')');
    cuts.push({
      line: source.slice(0, match.index).split('\n').length,
      told: source.slice(match.index, end).replace(/\s+/g, ' '),
      text: `${source.slice(0, match.index)}void 0${source.slice(end)}`,
    });
  }
  return cuts;
};

/** Each thing the short way asks about before it lets all through, and each side of the one "or". */
export const shortCutsOf = (source: string): readonly Cut[] => {
  const from = source.indexOf('const asksNothingRisky');
  const until = source.indexOf(';', from);
  const parts = [...source.matchAll(/!?wanted\.\w+( === 'shut')?/g)].filter(
    ({ index }) => index > from && index < until,
  );
  const sides = [...source.matchAll(/const bucketSolvent = (\w+) \|\| ([\w()]+);/g)].flatMap(
    ({ index, 0: all, 1: one = '', 2: two = '' }) =>
      [one, two].map((side) => ({ index: index + all.indexOf(side), 0: side, by: 'false' })),
  );
  return [...parts.map((part) => ({ index: part.index, 0: part[0], by: 'true' })), ...sides].map(
    ({ index, 0: told, by }) => ({
      line: source.slice(0, index).split('\n').length,
      told,
      text: `${source.slice(0, index)}${by}${source.slice(index + told.length)}`,
    }),
  );
};

const broken = (cuts: readonly Cut[], words: string): readonly Mutation[] =>
  cuts.map(({ told, text }, at) => ({
    of: `gate ${words} ${at + 1}: ${told}`,
    broken: `the gate leaves out ${told}`,
    hunt: () => huntGate(gateOf(text)),
    differs: () => gateDiffers(gateOf(text)),
  }));

export const GATE_LINE_MUTATIONS: readonly Mutation[] = [
  ...broken(cutsOf(SOURCE), 'line'),
  ...broken(shortCutsOf(SOURCE), 'condition'),
];

export const TRUE_GATE_TEXT = SOURCE;
export { gateOf };
