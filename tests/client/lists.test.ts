/** Order of alarms, bars against targets, words of the record, page titles, idle lines. */
import { describe, expect, it } from 'vitest';
import { inOrder, isActive, newestUnacknowledged, worstPriority } from '../../client/alarms/order.ts';
import { isIdle } from '../../client/line/idle.ts';
import { countsNow, tempScale, weightScale } from '../../client/line/scale.ts';
import { hear, NOTHING_YET } from '../../client/live/reducer.ts';
import { lineOf } from '../../client/records/entries.ts';
import { commandSentence, plainWords } from '../../client/records/words.ts';
import { pageTitle } from '../../client/shell/page-title.ts';
import { recordPage } from './fixture/record.ts';
import { ALARMS, alarm, alarms, cautions, cooling, idle, tripped } from './fixture/views.ts';

describe('alarms', () => {
  it('unacknowledged first, then acknowledged, then what is put aside; by priority within', () => {
    expect(inOrder(ALARMS).map((each) => each.id)).toEqual([
      'vapour-high',
      'weight-out',
      'bin2-low',
      'hood-fan',
      'oil-low',
      'dip-cutback',
    ]);
  });

  it('the pill counts what is not put aside, and knows the worst', () => {
    const active = ALARMS.filter(isActive);
    expect(active).toHaveLength(4);
    expect(worstPriority(active)).toBe('high');
    expect(worstPriority([])).toBeNull();
  });

  it('the shortcut takes the newest that wants a person', () => {
    expect(newestUnacknowledged(ALARMS)?.id).toBe('vapour-high');
    expect(newestUnacknowledged([alarm('x', 'low', '', '', 'acknowledged', 1)])).toBeNull();
  });
});

describe('bars', () => {
  const weight = {
    id: 'w',
    label: '',
    valueKg: 50,
    targetKg: 100,
    lowKg: 98,
    highKg: 102,
    capacityKg: 1000,
    standing: 'met',
    text: '',
  } as const;

  it('a weight ends a fifth past its target, or at its capacity without one', () => {
    expect(weightScale(weight)).toMatchObject({ value: 50 / 120, target: 100 / 120 });
    expect(weightScale({ ...weight, targetKg: null, lowKg: null, highKg: null })).toEqual({
      fullKg: 1000,
      value: 0.05,
      target: null,
      band: null,
    });
    expect(weightScale({ ...weight, valueKg: 900 }).value).toBe(1);
  });

  it('a weight is shown while it has a target, holds something or wants a person', () => {
    const empty = { ...weight, valueKg: 0.4, targetKg: null };
    expect([countsNow(weight), countsNow(empty), countsNow({ ...empty, standing: 'alarm' })]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('an open window reaches to the end of its scale', () => {
    const temp = {
      id: 't',
      label: '',
      valueC: 71.4,
      fromC: null,
      toC: 65,
      scaleC: [0, 130],
      standing: 'unmet',
      untilInS: null,
      untilOutS: null,
    } as const;
    expect(tempScale(temp)).toEqual({ value: 71.4 / 130, band: { from: 0, to: 0.5 } });
    expect(tempScale({ ...temp, toC: null }).band).toBeNull();
  });
});

describe('the record', () => {
  const lines = recordPage(new URLSearchParams()).entries.map(lineOf);

  it('says facts, refusals and commands in words with who did it', () => {
    expect(lines.map((line) => line?.text)).toContain('Batch 36 discharged: 748 kg into lot 113, bay 2');
    expect(lines.find((line) => line?.sort === 'refusal')).toMatchObject({
      by: 'ada',
      text: 'Refused to light the burner: Solvent binder is in the pug mill; Vapour is 12.4 % LEL, it must be below 10 %',
    });
    expect(lines.find((line) => line?.sort === 'command')?.text).toBe('light the burner');
  });

  it('leaves readings out and says a command with what it was given', () => {
    const common = { seq: 1, atMs: 0, wall: '', prev: '', hash: '' };
    expect(lineOf({ ...common, kind: 'readings', body: { from: 0, to: 1, rows: [] } })).toBeNull();
    expect(commandSentence({ do: 'start', batches: 3 })).toBe('start (batches 3)');
    expect(plainWords('waitingForBinder')).toBe('waiting for binder');
  });

  it('shows a fact it does not know by its name', () => {
    const common = { seq: 1, atMs: 0, wall: '', prev: '', hash: '' };
    const unknown = { is: 'somethingNew' } as never;
    expect(lineOf({ ...common, kind: 'fact', body: { tick: 0, fact: unknown } })?.text).toBe('somethingNew');
  });
});

describe('titles and idleness', () => {
  const run = { simulated: true, speed: 1, paused: false, seq: 1, head: '', trouble: null };
  const live = hear(NOTHING_YET, { heard: 'state', state: { n: 0, view: alarms, run } });

  it('alarms stand before what happens, a lost connection before both', () => {
    expect(pageTitle(NOTHING_YET, 'Line')).toBe('Line · Patchyard');
    expect(pageTitle(live, 'Line')).toBe('▲ 3 · Mixing until evenly brown · Patchyard');
    expect(pageTitle(hear(live, { heard: 'linkDown' }), 'Lots')).toBe('Connection lost · Lots · Patchyard');
  });

  it('orders are offered while nothing is made and nothing burns', () => {
    expect([idle, cooling, tripped, cautions].map(isIdle)).toEqual([true, false, false, false]);
    const campaign = { n: 1, step: 'drying', batchesWorth: 10, driedKg: 0, wantedKg: 1 };
    expect(isIdle({ ...idle, campaign })).toBe(false);
    expect(isIdle({ ...idle, campaign: { ...campaign, step: 'cooling' } })).toBe(true);
    expect(isIdle({ ...idle, shift: { ...idle.shift, ended: true } })).toBe(false);
  });
});
