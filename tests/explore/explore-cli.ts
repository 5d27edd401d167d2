/** `npx tsx tests/explore/explore-cli.ts [--json]`: explores every model and hunts every mutant, and says what came of it. */
import { asStory, cannotReach, explore } from './explorer.ts';
import { freeGateSweep, gateSweep } from './gate-space.ts';
import { TASKS } from './models.ts';
import { MUTANTS } from './mutants.ts';
import { tankGateSweep } from './tank-models.ts';

const unknown = process.argv.slice(2).filter((word) => word !== '--json');
if (unknown.length > 0) {
  console.error(`unknown argument ${unknown[0]}; only --json is known`);
  process.exit(2);
}
const json = process.argv.includes('--json');
const say = (text: string): void => {
  if (!json) console.log(text);
};

const models = TASKS.map((task) => {
  const model = task.build();
  const explored = explore(model);
  const dead = task.ready === null ? [] : cannotReach(model, explored, task.ready);
  const violations = [
    ...explored.violations.map(asStory),
    ...dead.slice(0, 3).map((state) => `NR-11 no way on from ${model.describe(state)}`),
  ];
  const seconds = Math.round(explored.seconds * 100) / 100;
  say(`${model.name}: ${explored.states} states, ${explored.transitions} transitions, ${seconds} s`);
  for (const violation of violations) say(violation);
  return {
    name: model.name,
    states: explored.states,
    transitions: explored.transitions,
    seconds,
    violations,
  };
});
const sweep = gateSweep();
say(`gate: ${sweep.judged} states judged, ${sweep.breaches.length} breaches`);
models.push({
  name: 'gate in every state',
  states: sweep.judged,
  transitions: 0,
  seconds: 0,
  violations: sweep.breaches.slice(0, 3),
});
for (const { name, run } of [
  { name: 'gate beside every state of the regions no trip looks at', run: freeGateSweep },
  { name: 'gate beside every state of both tank interlocks', run: tankGateSweep },
]) {
  const started = performance.now();
  const { judged, breaches } = run();
  const seconds = Math.round((performance.now() - started) / 10) / 100;
  say(`${name}: ${judged} states judged, ${breaches.length} breaches, ${seconds} s`);
  models.push({ name, states: judged, transitions: 0, seconds, violations: breaches.slice(0, 3) });
}

const alive = MUTANTS.filter(({ hunt }) => hunt() === null);
const killed = MUTANTS.length - alive.length;
for (const { rule, broken } of alive) say(`mutant lives: ${rule} ${broken}`);
say(`${killed} of ${MUTANTS.length} mutants killed`);
if (json)
  console.log(
    JSON.stringify({
      models,
      mutants: MUTANTS.length,
      killed,
      alive: alive.map(({ rule, broken }) => `${rule} ${broken}`),
    }),
  );
if (alive.length > 0 || models.some((one) => one.violations.length > 0)) process.exitCode = 1;
