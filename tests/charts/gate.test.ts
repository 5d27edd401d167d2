/** The gate, by example; every state of it is judged in tests/explore. */
import { describe, expect, it } from 'vitest';
import type { ChartValue } from '../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../machines/field/outputs.ts';
import { gate as gateOf, type TankValues } from '../../machines/line/gate.ts';

const SAFE = {
  dryer: 'purged',
  extraction: 'proved',
  vapour: 'low',
  detector: 'healthy',
  aggregate: 'withinLimit',
  binder: 'inWindow',
  bucket: 'noCutback',
  mixer: 'noCutback',
  valve: 'shut',
  emergencyStop: 'released',
  power: 'healthy',
  binderLimit: 'below',
  calibration: 'in',
  hotWork: 'closed',
  cutbackTank: 'confirmed',
  emulsionTank: 'confirmed',
  trip: 'watching',
} as const satisfies ChartValue;
const TANK = {
  cover: 'covered',
  limit: 'below',
  flow: 'proved',
  delivery: 'none',
  dispensing: 'none',
  vent: 'low',
  contents: 'confirmed',
  water: 'none',
  hotWork: 'closed',
} as const satisfies ChartValue;
const TANKS: TankValues = { emulsion: TANK, cutback: TANK };
const gate = (wanted: Outputs, value: ChartValue, burner: ChartValue, tanks: TankValues = TANKS) =>
  gateOf(wanted, value, burner, tanks);
const interlock = (differing: Record<string, ChartValue>): ChartValue => ({ ...SAFE, ...differing });
const wants = (some: Partial<Outputs>): Outputs => ({ ...AT_REST, ...some });
const heldKeys = (wanted: Outputs, value: ChartValue, burner: ChartValue): string[] =>
  gate(wanted, value, burner).held.map((one) => one.key);

const WORKING = wants({
  bin1Gate: 'full',
  emulsionFeed: 'dribble',
  waterValve: true,
  pugMill: true,
  belt: true,
  mixerGate: true,
  oilPump: true,
  oilBurner: true,
});
const LIT = wants({ drumFan: true, burnerMain: 'high' });
const RUNNING = { running: { fire: 'high', flame: 'seen' } };

describe('gate', () => {
  it('hands back what was asked, the very object, when nothing is held', () => {
    for (const [wanted, value, burner] of [
      [WORKING, SAFE, 'off'],
      [LIT, interlock({ dryer: 'firing' }), RUNNING],
      [wants({ cutbackFeed: 'full' }), SAFE, 'off'],
      [wants({ bucketValve: true }), interlock({ bucket: 'cutback' }), 'off'],
    ] as const) {
      const { outputs, held } = gate(wanted, value, burner);
      expect(outputs).toBe(wanted);
      expect(held).toEqual([]);
    }
  });

  it('says in words what it holds and why', () => {
    const { outputs, held } = gate(
      wants({ bucketValve: true }),
      interlock({ bucket: 'cutback', vapour: 'raised', extraction: 'lost' }),
      'off',
    );
    expect(outputs.bucketValve).toBe(false);
    expect(held).toEqual([
      { element: 'Binder valve to the pug mill', key: 'bucketValve', because: ['FI-03', 'FI-04'] },
    ]);
  });

  it('lets an emulsion run beside a flame, in vapour and with a hot aggregate', () => {
    const wanted = wants({ bucketValve: true, emulsionFeed: 'full', drumFan: true, burnerMain: 'low' });
    const value = interlock({
      dryer: 'firing',
      aggregate: 'overLimit',
      binder: 'outOfWindow',
      valve: 'open',
    });
    expect(gate(wanted, value, RUNNING).outputs).toBe(wanted);
  });

  it('holds the binder valve when the bucket may hold cutback, or cutback is being fed at this moment', () => {
    expect(
      heldKeys(wants({ bucketValve: true }), interlock({ bucket: 'cutback', dryer: 'airing' }), 'off'),
    ).toEqual(['bucketValve']);
    expect(
      heldKeys(wants({ bucketValve: true, cutbackFeed: 'full' }), interlock({ dryer: 'airing' }), 'off'),
    ).toEqual(['bucketValve', 'cutbackFeed']);
  });

  it('holds the cutback feed while a flame is lit, a purge is due or the binder valve stands open', () => {
    for (const differing of [
      { dryer: 'firing' },
      { dryer: 'purgeDue' },
      { dryer: 'fuelAsked' },
      { valve: 'open' },
    ])
      expect(heldKeys(wants({ cutbackFeed: 'full' }), interlock(differing), 'off')).toEqual(['cutbackFeed']);
  });

  it('shuts the flame, not the binder, when both are asked for in one moment', () => {
    const wanted = wants({ burnerPilot: true, burnerMain: 'low', cutbackFeed: 'dribble' });
    const { outputs, held } = gate(wanted, SAFE, 'pilotTrial');
    expect([outputs.burnerPilot, outputs.burnerMain, outputs.cutbackFeed]).toEqual([
      false,
      'shut',
      'dribble',
    ]);
    expect(held.map((one) => one.because)).toEqual([['FI-12'], ['FI-12']]);
  });

  it('keeps the pilot, and the main beside it, shut unless the binder valve is proved shut', () => {
    for (const valve of ['open', 'opening', 'closing', 'notShut'])
      expect(
        gate(wants({ burnerPilot: true, burnerMain: 'low' }), interlock({ valve }), 'mainTrial').held,
      ).toEqual([
        { element: 'Dryer pilot valve', key: 'burnerPilot', because: ['FI-13'] },
        { element: 'Dryer main fuel valve', key: 'burnerMain', because: ['FI-13'] },
      ]);
  });

  it('lets no fuel out beside the burner chart, whoever asks', () => {
    for (const burner of [
      'off',
      { purging: 'airing' },
      { postPurging: 'closingFuel' },
      { lockedOut: 'airLost' },
      'x',
    ])
      expect(heldKeys(wants({ burnerPilot: true, burnerMain: 'low' }), SAFE, burner)).toEqual([
        'burnerPilot',
        'burnerMain',
      ]);
  });

  it('a trip shuts what burns and feeds, and leaves pug mill, belt, fans and oil pump as asked', () => {
    const value = interlock({ trip: { tripped: 'FT-02' }, vapour: 'high' });
    const { outputs, held } = gate(WORKING, value, 'off');
    expect(held.map((one) => one.key)).toEqual(['emulsionFeed', 'bin1Gate', 'waterValve', 'oilBurner']);
    expect(held.every((one) => one.because[0] === 'FT-02')).toBe(true);
    expect(outputs).toMatchObject({
      pugMill: true,
      belt: true,
      mixerGate: true,
      oilPump: true,
      hoodFan: true,
    });
  });

  it('the emergency stop stops what moves as well, at once and until its trip is reset', () => {
    const keys = ['emulsionFeed', 'bin1Gate', 'waterValve', 'oilBurner', 'pugMill', 'mixerGate', 'belt'];
    expect(new Set(heldKeys(WORKING, interlock({ emergencyStop: 'pressed' }), 'off'))).toEqual(new Set(keys));
    expect(new Set(heldKeys(WORKING, interlock({ trip: { tripped: 'FT-07' } }), 'off'))).toEqual(
      new Set(keys),
    );
  });

  it('keeps the hood fan running on a trip and while cutback may be in the pug mill', () => {
    const still = wants({ hoodFan: false });
    for (const differing of [{ trip: { tripped: 'FT-05' } }, { mixer: 'cutback' }]) {
      const { outputs, held } = gate(still, interlock(differing), 'off');
      expect(outputs.hoodFan).toBe(true);
      expect(held.map((one) => one.key)).toEqual(['hoodFan']);
    }
    expect(gate(still, SAFE, 'off').outputs.hoodFan).toBe(false);
  });

  it('takes an interlock it cannot read for the worst', () => {
    const wanted = wants({ bucketValve: true, cutbackFeed: 'full', burnerPilot: true, pugMill: true });
    for (const value of ['', {}, { trip: 'watching' }])
      expect(gate(wanted, value, 'pilotTrial').outputs).toMatchObject({
        bucketValve: false,
        cutbackFeed: 'shut',
        burnerPilot: false,
        pugMill: false,
      });
  });

  it('changes nothing it was given', () => {
    const wanted = Object.freeze({ ...WORKING });
    const before = JSON.stringify(wanted);
    gate(wanted, interlock({ trip: { tripped: 'FT-07' } }), 'off');
    expect(JSON.stringify(wanted)).toBe(before);
  });
});
