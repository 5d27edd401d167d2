/**
 * `npx tsx tests/explore/explore-cli.ts [--json] [--stories FOLDER]`: explores every model, breaks every guard, cause
 * and output on purpose, and says what came of it. With --stories it writes one story file a rule.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { stringify } from 'yaml';
import { gate } from '../../machines/line/gate.ts';
import type { Story } from '../../machines/scenario/story.schema.ts';
import { MACHINES } from './charts.ts';
import { asStory, cannotReach, explore, type Model, type Violation } from './explorer.ts';
import { freeGateSweep, gateSweep } from './gate-space.ts';
import { TASKS } from './models.ts';
import { MUTANTS } from './mutants.ts';
import { FAMILIES } from './mutations/all.ts';
import { huntAsking } from './mutations/asking-hunt.ts';
import { unreached } from './mutations/drawn-states.ts';
import { huntGate } from './mutations/gate-hunt.ts';
import { huntLighting, huntPermitted } from './mutations/lighting-hunt.ts';
import { judged } from './mutations/mutation.ts';
import { ASKINGS, askingModel } from './mutations/output-rules.ts';
import type { NeverId } from './never-rules.ts';
import { inPlainWords, storyOf } from './stories/story-of.ts';
import { tellings, UNTOLD } from './stories/told.ts';
import { tankGateSweep } from './tank-models.ts';

const words = process.argv.slice(2);
const json = words.includes('--json');
const at = words.indexOf('--stories');
const folder = at < 0 ? null : words[at + 1];
const unknown = words.filter(
  (word, index) => word !== '--json' && index !== at && (at < 0 || index !== at + 1),
);
if (unknown.length > 0 || folder === undefined) {
  console.error(
    unknown.length > 0
      ? `unknown argument ${unknown[0]}; only --json and --stories FOLDER are known`
      : '--stories needs a folder to write to',
  );
  process.exit(2);
}
const say = (text: string): void => {
  if (!json) console.log(text);
};
const rounded = (seconds: number): number => Math.round(seconds * 100) / 100;

/** A breach in words a person at the plant understands, as far as the model says where its charts stand. */
const inWords = (model: Model, violation: Violation): string => {
  if (model.charts === undefined) return asStory(violation);
  const rule = violation.rule.slice(0, 5) as NeverId;
  return inPlainWords(
    storyOf({ rule, broken: 'nothing: these are the charts as they are' }, model, violation),
  );
};

const tellStories = (into: string): void => {
  mkdirSync(into, { recursive: true });
  let written = 0;
  for (const { rule, story } of tellings()) {
    if (story === null) say(`${rule}: no story (${UNTOLD[rule] ?? 'its breach was not found'})`);
    else {
      writeFileSync(join(into, `${rule.toLowerCase()}.yaml`), asYaml(story));
      written += 1;
    }
  }
  say(`${written} stories written to ${into}`);
};

const asYaml = (story: Story): string => {
  const steps = story.steps.map(({ offers, ...step }) => (offers.length === 0 ? step : { ...step, offers }));
  return stringify({ ...story, steps }, { lineWidth: 110 });
};

type Row = {
  readonly name: string;
  readonly states: number;
  readonly transitions: number;
  readonly seconds: number;
  readonly violations: readonly string[];
};
const models: Row[] = [];

const exploreModel = (model: Model, ready: null | ((state: number) => boolean)): void => {
  const explored = explore(model);
  const dead = ready === null ? [] : cannotReach(model, explored, ready);
  const violations = [
    ...explored.violations.map((violation) => inWords(model, violation)),
    ...dead.slice(0, 3).map((state) => `NR-11 no way on from ${model.describe(state)}`),
  ];
  const seconds = rounded(explored.seconds);
  say(`${model.name}: ${explored.states} states, ${explored.transitions} transitions, ${seconds} s`);
  for (const violation of violations) say(violation);
  models.push({
    name: model.name,
    states: explored.states,
    transitions: explored.transitions,
    seconds,
    violations,
  });
};

const sweep = (
  name: string,
  run: () => { readonly judged: number; readonly breaches: readonly string[] },
): void => {
  const started = performance.now();
  const { judged: states, breaches } = run();
  const seconds = rounded((performance.now() - started) / 1000);
  say(`${name}: ${states} states judged, ${breaches.length} breaches, ${seconds} s`);
  for (const breach of breaches.slice(0, 3)) say(breach);
  models.push({ name, states, transitions: 0, seconds, violations: breaches.slice(0, 3) });
};

const hunts = (): readonly string[] => [
  ...[huntGate(gate), huntLighting(), huntPermitted(), huntAsking()].flatMap((kill) =>
    kill === null ? [] : [kill.story],
  ),
  ...Object.entries(MACHINES).flatMap(([name, machine]) =>
    name === 'interlock'
      ? []
      : unreached(machine).map((leaf) => `NR-48 ${leaf} of ${name} cannot be reached`),
  ),
];

const breakEverything = () => {
  const started = performance.now();
  const alive: string[] = [];
  const equivalent: string[] = [];
  const kills = new Map<string, number>();
  let killed = 0;
  const kill = (rule: string): void => {
    killed += 1;
    kills.set(rule, (kills.get(rule) ?? 0) + 1);
  };
  for (const { rule, broken, hunt } of MUTANTS) {
    if (hunt() === null) alive.push(`${rule} ${broken}`);
    else kill(rule);
  }
  say(`chosen by hand, one or more a rule: ${killed} of ${MUTANTS.length} killed`);
  for (const { name, mutations } of FAMILIES) {
    const before = killed;
    let same = 0;
    for (const mutation of mutations) {
      const verdict = judged(mutation);
      if (verdict.is === 'killed') kill(verdict.rule);
      else if (verdict.is === 'alive') alive.push(`${mutation.broken}: ${verdict.why}`);
      else {
        same += 1;
        equivalent.push(mutation.broken);
      }
    }
    say(
      `${name}: ${killed - before} of ${mutations.length} killed${same === 0 ? '' : `, ${same} equivalent`}`,
    );
  }
  const seconds = rounded((performance.now() - started) / 1000);
  const mutants = MUTANTS.length + FAMILIES.reduce((sum, { mutations }) => sum + mutations.length, 0);
  return { mutants, killed, equivalent, alive, kills, seconds };
};

if (folder !== null) tellStories(folder);
else {
  for (const { build, ready } of TASKS) exploreModel(build(), ready);
  for (const one of ASKINGS) exploreModel(askingModel(one), null);
  sweep('gate in every state', gateSweep);
  sweep('gate beside every state of the regions no trip looks at', freeGateSweep);
  sweep('gate beside every state of both tank interlocks', tankGateSweep);
  const found = hunts();
  for (const one of found) say(one);
  if (found.length > 0)
    models.push({
      name: 'what is said to be permitted',
      states: 0,
      transitions: 0,
      seconds: 0,
      violations: found,
    });

  const { mutants, killed, equivalent, alive, kills, seconds } = breakEverything();
  for (const one of equivalent) say(`equivalent, the same in every state: ${one}`);
  for (const one of alive) say(`mutant lives: ${one}`);
  say(
    `by rule: ${[...kills]
      .sort()
      .map(([rule, count]) => `${rule} ${count}`)
      .join(', ')}`,
  );
  say(
    `${killed} of ${mutants} mutants killed, ${equivalent.length} equivalent, ${alive.length} alive, ${seconds} s`,
  );
  if (json) console.log(JSON.stringify({ models, mutants, killed, equivalent, alive, seconds }));
  if (alive.length > 0 || models.some((one) => one.violations.length > 0)) process.exitCode = 1;
}
