/** The sentence on top of each tab of lab and yard names what matters first, and what to do about it. */
import { describe, expect, it } from 'vitest';
import { labNow, lotsNow } from '../../client/lab/now-words.ts';
import { pageName } from '../../client/shell/page-title.ts';
import {
  baysNow,
  loadsNow,
  materialsNow,
  mixesNow,
  patchesNow,
  scheduleNow,
  traceNow,
} from '../../client/yard/now-words.ts';

const list = (id: string, name: string, state = 'open') =>
  ({ id, name, state, sum: { patches: 60 } }) as never;
const order = (state: string, ...lists: string[]) => ({ state, lists }) as never;

describe('the yard', () => {
  it('a list comes first, then its order, then its mix', () => {
    expect(patchesNow({ lists: [], orders: [] })).toMatch(/^Begin here/);
    const lists = [list('PL-1', 'Week 16')];
    expect(patchesNow({ lists, orders: [] })).toBe(
      'Week 16 has no order yet: open the list and order its mix.',
    );
    expect(patchesNow({ lists, orders: [order('withdrawn', 'PL-1')] })).toMatch(/has no order yet/);
    expect(patchesNow({ lists, orders: [order('part made', 'PL-1')] })).toBe(
      '1 list is open with 60 patches; 1 order waits to be made.',
    );
    expect(patchesNow({ lists, orders: [order('made', 'PL-1')] })).toMatch(/all its mix is made/);
    expect(patchesNow({ lists: [list('PL-1', 'Week 16', 'finished')], orders: [] })).toMatch(
      /No list is open/,
    );
  });

  it('a mix nobody may make comes before a draft', () => {
    const mix = (name: string, inForce: number | null, ...states: string[]) =>
      ({ name, inForce, versions: states.map((state) => ({ state })) }) as never;
    const draft = mix('Cold', 1, 'draft', 'approved');
    expect(mixesNow({ mixes: [draft] })).toBe('A draft of Cold waits to be approved.');
    expect(mixesNow({ mixes: [draft, mix('Open', null, 'withdrawn')] })).toMatch(
      /^No version of Open is in force/,
    );
  });

  it('what to make, and when the next planned shift is', () => {
    const forecast = [
      { name: 'Cold', makeKg: 3000 },
      { name: 'Open', makeKg: 0 },
    ] as never;
    const plan = {
      days: [
        { date: '2026-05-18', runs: [] },
        { date: '2026-05-19', runs: [{}] },
      ],
    } as never;
    expect(scheduleNow({ forecast, plan, shift: { ended: false } as never })).toBe(
      'Make 3.00 t of Cold this week; the next planned shift is 19 May 2026, once this shift is ended.',
    );
    expect(scheduleNow({ forecast: [], plan: null, shift: null })).toMatch(/^Nothing has to be made/);
  });

  it('orders due and losses; what lies and may not leave; loads in hand; open recalls', () => {
    const store = (id: string, is: string, loss = 'none') =>
      ({ id, material: 'Chips', order: is, loss, measured: { booked: false } }) as never;
    const stores = (...all: never[]) => ({ materials: { stores: all } as never });
    expect(materialsNow(stores(store('pile:1', 'too late'), store('tank:x', 'enough', 'beyond')))).toBe(
      'Order for Heap of Chips; measure Cutback tank again.',
    );
    expect(materialsNow(stores(store('pile:1', 'enough')))).toMatch(/^Enough of everything/);
    const layer = (standing: string, kg: number) => ({ standing, kg });
    const places = [
      { layers: [layer('may leave', 9000), layer('rejected', 10_500), layer('not yet tested', 750)] },
    ];
    expect(baysNow({ places: places as never })).toBe(
      '9.00 t may leave; 750 kg waits for the lab; 10.50 t is rejected: throw it away or work it over.',
    );
    expect(baysNow({ places: [] })).toMatch(/empty/);
    const loads = [{ state: 'on the road' }, { state: 'made out' }] as never;
    expect(loadsNow({ loads, ready: [{ freeKg: 0, held: [{ kg: 750 }] }] as never })).toBe(
      '1 load waits to be weighed out; 1 load is on the road; nothing may leave: 750 kg waits for the lab or is held.',
    );
    expect(traceNow({ recalls: [{ closed: null }] as never, drills: [] })).toMatch(/^1 recall is open/);
  });
});

describe('the lab', () => {
  const lot = (state: string, proposal: string) => ({ state, proposal }) as never;
  it('counts what waits, each lot once', () => {
    const prompts = [{ level: 'due' }, { level: 'log' }, { level: 'log' }] as never;
    const tasks = [
      { what: 'hold', lot: 'a' },
      { what: 'decide', lot: 'a' },
      { what: 'worksheet', lot: 'b' },
    ] as never;
    expect(labNow({ prompts, tasks, lots: [] }, 1)).toBe(
      'Now: 1 sample to take, 2 samples to log, 1 sample to test, 1 lot to decide about.',
    );
    expect(labNow({ prompts: [], tasks: [], lots: [] }, 0)).toMatch(/first batch opens a lot/);
    expect(labNow({ prompts: [], tasks: [], lots: [lot('accepted', 'accept')] }, 0)).toMatch(
      /^Nothing waits/,
    );
  });
  it('says which lots want a decision before the rule', () => {
    const lots = [
      lot('testing', 'accept'),
      lot('on hold', 'hold'),
      lot('sampling', 'wait'),
      lot('accepted', 'accept'),
    ];
    expect(lotsNow({ lots })).toBe(
      '1 lot may be accepted, 1 lot is on hold, 1 lot is not tested through. A lot leaves the yard only when it is accepted or released by concession.',
    );
  });
});

it('a part of a page is named before its page', () => {
  expect(pageName('/yard/bays', 'Yard')).toBe('Bays · Yard');
  expect(pageName('/lab/lots/260511-1', 'Lab')).toBe('Lots · Lab');
  expect([pageName('/lots', 'Lots'), pageName('/charts', 'Charts')]).toEqual(['Lots', 'Charts']);
});
