/** One mutation per guard, cause, list entry, line of the gate and output of a state: each is killed by a rule, or shown to change nothing. */
import { describe, expect, it } from 'vitest';
import { SAFEGUARDS } from '../../machines/charts/burner/burner.safeguards.ts';
import { CAUSE_IDS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { gate } from '../../machines/line/gate.ts';
import { MACHINES } from './charts.ts';
import { explore } from './explorer.ts';
import { MUTANTS } from './mutants.ts';
import { FAMILIES } from './mutations/all.ts';
import { huntAsking } from './mutations/asking-hunt.ts';
import { unreached } from './mutations/drawn-states.ts';
import { gateDiffers, huntGate, letThroughWhenSafe, WANTS } from './mutations/gate-hunt.ts';
import { cutsOf, gateOf, TRUE_GATE_TEXT } from './mutations/gate-line-mutations.ts';
import { GATE_LISTS } from './mutations/gate-list-mutations.ts';
import { guardsOf } from './mutations/guard-mutations.ts';
import { huntLighting, huntPermitted } from './mutations/lighting-hunt.ts';
import { judged } from './mutations/mutation.ts';
import { ASKINGS, askingModel, tableFor } from './mutations/output-rules.ts';
import { NEVER } from './never-rules.ts';

/** Two permissives are implied by a third, and three causes by others: broken alone they change nothing, in any state. */
const EQUIVALENT: readonly string[] = [
  'FI-01 always met',
  'FI-01 taken for met with dryer firing',
  'FI-01 taken for met with dryer flameUnexplained',
  'FI-01 taken for met with dryer scannerFault',
  'FI-02 taken for met with dryer firing',
  'FI-02 taken for met with dryer fuelOpen',
  'FI-02 taken for met with dryer fuelUnlit',
  'FI-02 taken for met with dryer fuelAsked',
  'FI-02 taken for met with dryer flameUnexplained',
  'FI-02 taken for met with dryer scannerFault',
  'FI-08 always met',
  'FI-08 taken for met with dryer firing',
  'FI-08 taken for met with dryer fuelOpen',
  'FI-08 taken for met with dryer fuelUnlit',
  'FI-08 taken for met with dryer fuelAsked',
  'FT-08 is blind to valve notShut in situation 1',
  'a reset does not look at FT-07',
  'a reset does not look at FT-11',
];

const ALL = FAMILIES.flatMap(({ mutations }) => mutations);
const broken = new Set(ALL.map(({ of }) => of));
const kills = new Set<string>();
const same: string[] = [];

describe('mutations', () => {
  for (const { name, mutations } of FAMILIES)
    it(`${name}: all ${mutations.length} killed by a rule, or shown to change nothing`, {
      timeout: 180_000,
    }, () => {
      const alive: string[] = [];
      for (const mutation of mutations) {
        const verdict = judged(mutation);
        if (verdict.is === 'killed') kills.add(verdict.rule);
        if (verdict.is === 'equivalent') same.push(mutation.broken);
        if (verdict.is === 'alive') alive.push(`${mutation.of}: ${mutation.broken}: ${verdict.why}`);
      }
      expect(alive).toEqual([]);
      expect(mutations.length).toBeGreaterThan(0);
    });

  it('those that change nothing are the ones listed, no fewer and no more', () => {
    expect([...same].sort()).toEqual([...EQUIVALENT].sort());
  });

  it('every rule has something broken on purpose that it finds', () => {
    const found = new Set([...kills, ...MUTANTS.map((one) => one.rule)]);
    expect([...found].sort()).toEqual(Object.keys(NEVER).sort());
  });
});

describe('nothing is left unbroken', () => {
  it('every cause of the matrix', () => {
    const rows = CAUSE_IDS.filter((id) => !id.startsWith('TC'));
    const named = (id: string): boolean =>
      ['permissive ', 'guard flameInterlock ', 'safeguard ', 'tank cause '].some((kind) =>
        [...broken].some((of) => of === `${kind}${id}` || of.startsWith(`${kind}${id} `)),
      );
    expect(rows.filter((id) => !named(id))).toEqual([]);
    expect(SAFEGUARDS.length).toBeGreaterThan(0);
  });

  it('every named guard of every chart, both ways', () => {
    const wanted = Object.values(MACHINES).flatMap((machine) =>
      guardsOf(machine).flatMap((guard) => [true, false].map((way) => `guard ${machine.id} ${guard} ${way}`)),
    );
    expect(wanted.length).toBeGreaterThan(20);
    expect(wanted.filter((of) => !broken.has(of))).toEqual([]);
  });

  it('every entry of the lists of the gate, every line that holds', () => {
    for (const [name, list] of Object.entries(GATE_LISTS))
      for (const key of list) expect(broken).toContain(`list ${name}: ${key}`);
    const lines = TRUE_GATE_TEXT.match(/(?<!const |\w)hold(Fuel)?\(/g) ?? [];
    expect(cutsOf(TRUE_GATE_TEXT)).toHaveLength(lines.length);
    expect(lines.length).toBeGreaterThan(10);
  });

  it('every output of binder, fuel and heat in every state', () => {
    const outputs = ALL.filter(({ of }) => of.startsWith('output '));
    const wanted = ASKINGS.reduce((sum, one) => sum + tableFor(one.chart).names.length * one.keys.length, 0);
    expect(outputs).toHaveLength(wanted);
  });
});

describe('what the mutations are judged by finds nothing wrong with the true code', () => {
  it('NR-01 to NR-06, NR-18, NR-19, NR-30 to NR-34, NR-38, NR-39: the gate, and its own text run as a gate', () => {
    expect(huntGate(gate)).toBeNull();
    expect(gateDiffers(gateOf(TRUE_GATE_TEXT))).toBeNull();
  }, 120_000);

  it('the gate lets each thing asked through when all is safe, so a hunt has something to find', () => {
    const seen = new Set(
      WANTS.flatMap((wanted) =>
        Object.entries(letThroughWhenSafe(wanted)).flatMap(([key, value]) =>
          value === true || value === 'full' || value === 'low' ? [key] : [],
        ),
      ),
    );
    for (const key of ['bucketValve', 'cutbackFeed', 'burnerPilot', 'burnerMain', 'oilBurner', 'cutbackCoil'])
      expect(seen).toContain(key);
  });

  it('NR-40, NR-41, NR-42: lighting, asking for heat, and what is said to be permitted', () => {
    expect([huntLighting(), huntAsking(), huntPermitted()]).toEqual([null, null, null]);
  });

  it.each(ASKINGS.map((one) => [one.told, one] as const))(
    'NR-49, NR-50, NR-51, NR-52, NR-53: what the %s asks for',
    (_, one) => {
      expect(explore(askingModel(one)).violations).toEqual([]);
    },
  );

  it('NR-48: every state drawn can be reached', () => {
    for (const [name, machine] of Object.entries(MACHINES))
      if (name !== 'interlock') expect(unreached(machine), name).toEqual([]);
  });
});
