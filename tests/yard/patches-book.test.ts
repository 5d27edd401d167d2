/** The patches book: lists taken whole or not at all, changed with reasons, ordered once, made and laid. */
import { describe, expect, it } from 'vitest';
import { listCsv } from '../../client/yard/patches/list-csv.ts';
import {
  MOST_PATCHES,
  PATCHES_PERMISSIONS,
  type PatchesCommand,
  patchesCommandSchema,
} from '../../machines/yard/patches/commands.ts';
import { freeStockKg } from '../../machines/yard/patches/others.ts';
import { viewPatches } from '../../machines/yard/patches/view.ts';
import { patchesWords } from '../../machines/yard/patches/words.ts';
import { AT, BY, Desk, hole, SCENARIO } from './patches-desk.ts';

const opened = (): Desk => {
  const desk = new Desk();
  desk.open();
  return desk;
};

describe('a list', () => {
  it('is taken with what each hole takes, and named by the plant’s day', () => {
    const desk = opened();
    expect(desk.take()).toBe('PL-260414-1');
    expect(desk.take()).toBe('PL-260414-2');
    const list = desk.state.lists['PL-260414-1'];
    expect(list).toMatchObject({ state: 'open', by: 'pell', takenAt: AT });
    expect(list?.patches.map(({ row, takeOff }) => [row, takeOff.mixKg])).toEqual([
      [1, 92.6],
      [2, 92.6],
      [3, 92.6],
    ]);
    expect(list?.sum).toMatchObject({ patches: 3, mixKg: 277.8 });
  });

  it('is not taken at all when one hole is not sound', () => {
    const desk = opened();
    const before = desk.state;
    const because = desk.ask({
      do: 'takeList',
      name: 'Week 16',
      source: { how: 'file', file: 'w16.csv', leftOut: 0 },
      patches: [hole(), hole({ depthMm: 20 }), hole({ lengthM: -2 })],
    });
    expect(because?.[0]).toContain('Nothing was taken');
    expect(because?.slice(1).map((words) => words.slice(0, 5))).toEqual(['Row 2', 'Row 3']);
    expect(desk.state).toBe(before);
  });

  it('of five thousand is several entries, of more it is refused in words', () => {
    const desk = opened();
    const many = Array.from({ length: MOST_PATCHES }, () => hole());
    desk.take(many);
    expect(desk.said).toHaveLength(21);
    expect(Math.max(...desk.said.map((fact) => JSON.stringify(fact).length))).toBeLessThan(120_000);
    expect(desk.state.lists['PL-260414-1']?.patches).toHaveLength(MOST_PATCHES);
    expect(
      desk.ask({
        do: 'takeList',
        name: 'Too many',
        source: { how: 'file', file: null, leftOut: 0 },
        patches: [...many, hole()],
      }),
    ).toEqual(['A list holds at most 5000 patches: split it, for instance by route.']);
  });

  it('keeps formulas as text and lets none out', () => {
    const desk = opened();
    const id = desk.take([hole({ place: '=1+1', route: '@x' })]);
    const list = desk.state.lists[id];
    expect(list?.patches[0]?.place).toBe('=1+1');
    expect(listCsv(list as never).split('\r\n')[1]).toMatch(/^1,'=1\+1,'@x,/);
  });

  it('is changed row by row with reasons, and every change can be undone', () => {
    const desk = opened();
    const list = desk.take();
    const row = { list, row: 2, reason: 'measured again' };
    expect(desk.ask({ do: 'changePatch', ...row, now: hole({ route: 'South', depthMm: 90 }) })).toBeNull();
    expect(desk.state.lists[list]?.patches[1]?.takeOff.layersMm).toEqual([45, 45]);
    expect(
      desk.ask({ do: 'changePatch', ...row, now: hole({ route: 'South', depthMm: 90 }) })?.[0],
    ).toContain('Nothing is different');
    expect(desk.ask({ do: 'changePatch', ...row, now: hole({ depthMm: 10 }) })?.[0]).toContain('too thin');
    const sum = desk.state.lists[list]?.sum;
    expect(desk.ask({ do: 'takeOutPatch', ...row })).toBeNull();
    expect(desk.state.lists[list]?.sum.patches).toBe(2);
    expect(desk.ask({ do: 'changePatch', ...row, now: hole() })?.[0]).toContain('put it back first');
    expect(desk.ask({ do: 'putBackPatch', ...row })).toBeNull();
    expect(desk.state.lists[list]?.sum).toEqual(sum);
    expect(desk.ask({ do: 'takeOutPatch', ...row, reason: ' ' })).not.toBeNull();
    expect(desk.ask({ do: 'takeBackList', list, reason: 'taken by mistake' })).toBeNull();
    expect(desk.state.lists[list]).toMatchObject({ state: 'taken back', patches: [] });
    expect(desk.ask({ do: 'takeOutPatch', ...row })?.[0]).toContain('Take a new list');
  });

  it('is worked out with other figures once they are changed, and what was listed stays', () => {
    const desk = opened();
    const before = desk.take();
    const now = { ...desk.state.basis, trimMm: 0, wastePct: 0, finishHandMm: 0 };
    expect(desk.ask({ do: 'changeBasis', now, reason: 'saw cuts at the edge' })).toBeNull();
    const after = desk.take();
    // 0.9 × 0.5 × 0.060 × 2100 = 56.7 kg.
    expect(desk.state.lists[after]?.patches[0]?.takeOff.mixKg).toBe(56.7);
    expect(desk.state.lists[before]?.patches[0]?.takeOff.mixKg).toBe(92.6);
  });
});

describe('an order', () => {
  it('is rounded up to batches, or to lots', () => {
    const desk = opened();
    const list = desk.take();
    expect(desk.order(list)).toBeNull();
    // 277.8 kg in batches of 750 kg.
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ batches: 1, makeKg: 750, state: 'open' });
    const other = desk.take();
    expect(desk.order(other, { rounding: 'lots' })).toBeNull();
    // A lot of 10 t is 14 batches of 750 kg.
    expect(desk.state.orders['PO-260414-2']).toMatchObject({ batches: 14, makeKg: 10_500 });
  });

  it('is for each hole once', () => {
    const desk = opened();
    const list = desk.take();
    expect(desk.order(list, { route: 'North' })).toBeNull();
    expect(desk.order(list)?.[0]).toContain('ordered already (PO-260414-1)');
    expect(desk.order(list, { route: 'South' })).toBeNull();
    expect(desk.order(list, { route: 'East' })?.[0]).toContain('No hole');
    expect(desk.ask({ do: 'withdrawOrder', order: 'PO-260414-1', reason: 'other mix' })).toBeNull();
    expect(desk.order(list, { route: 'North', mix: 'cutback-patch' })).toBeNull();
    expect(desk.ask({ do: 'putBackOrder', order: 'PO-260414-1', reason: 'changed my mind' })?.[0]).toContain(
      'PO-260414-3',
    );
    expect(desk.ask({ do: 'takeBackList', list, reason: 'not needed' })?.[0]).toContain('withdraw the order');
  });

  it.each([
    [{ mix: 'no-mix' }, 'There is no approved mix no-mix'],
    [{ neededBy: '2026-04-13' }, 'is past'],
    [{ lists: ['PL-260414-9'] }, 'There is no patch list PL-260414-9'],
  ])('is refused in words: %j', (change, words) => {
    const desk = opened();
    expect(desk.order(desk.take(), change)?.join(' ')).toContain(words);
  });

  it('takes released stock first, and promises none of it twice', () => {
    const desk = opened();
    desk.others = {
      stock: {
        places: {
          'bay:1': [
            { lot: '260413-1', grams: 200_000 },
            { lot: '260413-2', grams: 500_000 },
          ],
        },
        lots: { '260413-1': { mixId: 'emulsion-patch' }, '260413-2': { mixId: 'emulsion-patch' } },
      },
      lab: { lots: { '260413-1': { state: 'accepted' }, '260413-2': { state: 'testing' } } },
    };
    expect(freeStockKg(desk.state, desk.others, 'emulsion-patch')).toBe(200);
    expect(desk.order(desk.take())).toBeNull();
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ fromStockKg: 200, batches: 1 });
    expect(desk.order(desk.take())).toBeNull();
    expect(desk.state.orders['PO-260414-2']).toMatchObject({ fromStockKg: 0, batches: 1 });
    desk.others = { ...desk.others, lab: { lots: {} } };
    expect(freeStockKg(desk.state, desk.others, 'emulsion-patch')).toBe(0);
  });

  it('uses the approved version of its mix', () => {
    const desk = opened();
    const [file] = SCENARIO.mixes;
    const content = { ...(file as NonNullable<typeof file>), version: 7, batchKg: 500 };
    desk.others = { mixes: { mixes: { 'emulsion-patch': [{ state: 'approved', content }] } } };
    expect(desk.order(desk.take())).toBeNull();
    expect(desk.state.orders['PO-260414-1']?.makeKg).toBe(500);
    desk.others = { mixes: { mixes: { 'emulsion-patch': [{ state: 'draft', content }] } } };
    expect(desk.order(desk.take())?.[0]).toContain('There is no approved mix emulsion-patch');
    expect(viewPatches(desk.state, AT, desk.others).withoutMix).toEqual(['PO-260414-1']);
  });
});

describe('from order to patch', () => {
  const made = (desk: Desk, order: string, grams: number): void => {
    desk.open({
      date: '2026-04-15',
      orders: [{ mix: 'emulsion-patch', tonnes: 0.75, bay: 1, for: order }],
    });
    desk.line({ is: 'lotOpened', lot: '260415-1', mix: 'emulsion-patch', bay: 1 } as never);
    desk.line({ is: 'batchDischarged', lot: '260415-1', batch: 1, grams } as never);
  };

  it('mix made in a shift opened for it counts, mix of other shifts does not', () => {
    const desk = opened();
    expect(desk.order(desk.take())).toBeNull();
    desk.line({ is: 'lotOpened', lot: '260414-1', mix: 'emulsion-patch', bay: 1 } as never);
    desk.line({ is: 'batchDischarged', lot: '260414-1', batch: 1, grams: 750_000 } as never);
    expect(desk.state.orders['PO-260414-1']?.state).toBe('open');
    made(desk, 'PO-260414-1', 400_000);
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ state: 'part made', lots: ['260415-1'] });
    expect(desk.ask({ do: 'withdrawOrder', order: 'PO-260414-1', reason: 'too late' })?.[0]).toContain(
      'end the shift first',
    );
    desk.line({ is: 'batchDischarged', lot: '260415-1', batch: 2, grams: 345_000 } as never);
    expect(desk.state.orders['PO-260414-1']?.state).toBe('made');
  });

  it('holes filled settle it, and what is reversed opens it again', () => {
    const desk = opened();
    const list = desk.take([hole(), hole({ place: 'Fell Road' })]);
    expect(desk.order(list)).toBeNull();
    made(desk, 'PO-260414-1', 751_000);
    desk.line({ is: 'shiftEnded', by: BY } as never);
    desk.stock({ is: 'loadMadeOut', load: 'L-260415-1', mix: 'emulsion-patch' });
    const laid = (row: number) => ({
      is: 'patchLaid',
      load: 'L-260415-1',
      patch: `${list}/${row}`,
      grams: 93_000,
    });
    desk.stock(laid(1));
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ state: 'made', deliveredKg: 93 });
    expect(viewPatches(desk.state, AT).orders[0]).toMatchObject({ holes: 2, filled: 1 });
    expect(desk.ask({ do: 'takeOutPatch', list, row: 1, reason: 'was filled' })?.[0]).toContain('Loads');
    desk.stock(laid(2));
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ state: 'delivered', deliveredKg: 186 });
    expect(desk.state.use).toEqual([{ date: '2026-04-14', mix: 'emulsion-patch', kg: 186 }]);
    // Laid in a hole of no list it is used as well, and settles nothing.
    desk.stock({ ...laid(2), patch: 'by the gate', grams: 14_000 });
    expect(desk.state.use).toEqual([{ date: '2026-04-14', mix: 'emulsion-patch', kg: 200 }]);
    desk.stock({ ...laid(2), is: 'patchLaidReversed' });
    expect(desk.state.use).toEqual([{ date: '2026-04-14', mix: 'emulsion-patch', kg: 107 }]);
    expect(desk.state.orders['PO-260414-1']).toMatchObject({ state: 'made', deliveredKg: 93 });
    expect(desk.ask({ do: 'finishList', list })?.[0]).toContain('settle or withdraw');
    expect(desk.ask({ do: 'deliverOrder', order: 'PO-260414-1' })).toBeNull();
    expect(desk.ask({ do: 'finishList', list })).toBeNull();
    expect(desk.state.lists[list]).toMatchObject({ state: 'done', patches: [] });
    expect(desk.state.lists[list]?.sum).toMatchObject({ patches: 2, laidKg: 93 });
  });

  it('a list whose holes are all filled is put away when the next shift opens, and stays small', () => {
    const desk = opened();
    const list = desk.take([hole(), hole({ place: 'Fell Road' })]);
    expect(desk.order(list)).toBeNull();
    desk.stock({ is: 'patchLaid', load: 'L-260415-1', patch: `${list}/1`, grams: 93_000 });
    desk.open({ date: '2026-04-15' });
    expect(desk.state.lists[list]?.state).toBe('open');
    desk.stock({ is: 'patchLaid', load: 'L-260415-1', patch: `${list}/2`, grams: 93_000 });
    desk.open({ date: '2026-04-16' });
    expect(desk.state.lists[list]).toMatchObject({
      state: 'done',
      patches: [],
      sum: { patches: 2, laidKg: 186 },
    });
    expect(desk.state.orders['PO-260414-1']?.state).toBe('delivered');
    // Ten years of such lists and orders stay small.
    const bytes = JSON.stringify([desk.state.lists[list], desk.state.orders['PO-260414-1']]).length;
    expect(bytes).toBeLessThan(1200);
  });

  it('the forecast counts orders, free mix and use', () => {
    const desk = opened();
    expect(desk.order(desk.take())).toBeNull();
    const [first] = viewPatches(desk.state, AT).forecast.filter(({ mix }) => mix === 'emulsion-patch');
    expect(first).toMatchObject({
      orderedKg: 750,
      thisWeekKg: 750,
      useKgDay: 0,
      lastsDays: null,
      makeKg: 750,
    });
    // 14 t used on one day: over the least of seven days 2 t a day, so a week's use is 14 t, 13.25 t of it beyond orders.
    desk.state = { ...desk.state, use: [{ date: '2026-04-14', mix: 'emulsion-patch', kg: 14_000 }] };
    const [then] = viewPatches(desk.state, AT).forecast.filter(({ mix }) => mix === 'emulsion-patch');
    expect(then).toMatchObject({ useKgDay: 2000, lastsDays: 0, makeKg: 14_250 });
  });
});

describe('the week', () => {
  it('is arranged by hand and let go again', () => {
    const desk = opened();
    expect(desk.order(desk.take())).toBeNull();
    expect(desk.order(desk.take(), { mix: 'cutback-patch' })).toBeNull();
    const orders = ['PO-260414-2', 'PO-260414-1'];
    expect(desk.ask({ do: 'arrangeWeek', orders, reason: 'cutback crew first' })).toBeNull();
    expect(viewPatches(desk.state, AT).plan).toMatchObject({ sequence: orders, byHand: true });
    expect(desk.ask({ do: 'arrangeWeek', orders: ['PO-260414-7'], reason: 'try it' })?.[0]).toContain(
      'PO-260414-7',
    );
    expect(desk.ask({ do: 'arrangeWeek', orders: null, reason: 'as planned' })).toBeNull();
    expect(viewPatches(desk.state, AT).plan).toMatchObject({ byHand: false });
  });

  it('has the hours of a day set', () => {
    const desk = opened();
    expect(desk.order(desk.take())).toBeNull();
    expect(desk.ask({ do: 'setHours', date: '2026-04-15', hours: 0, reason: 'holiday' })).toBeNull();
    const plan = viewPatches(desk.state, AT).plan;
    expect(plan?.days.find(({ runs }) => runs.length > 0)?.date).toBe('2026-04-16');
    expect(desk.ask({ do: 'setHours', date: '2026-04-15', hours: 0, reason: 'holiday' })?.[0]).toContain(
      'already',
    );
    expect(desk.ask({ do: 'setHours', date: '2026-04-13', hours: 0, reason: 'holiday' })?.[0]).toContain(
      'past',
    );
  });
});

describe('the book', () => {
  it('says every fact in words, and gives a row of the permission table to every command', () => {
    const desk = opened();
    const list = desk.take();
    desk.order(list);
    desk.ask({ do: 'setHours', date: '2026-04-15', hours: 6, reason: 'half a day' });
    for (const fact of desk.said) expect(patchesWords(fact).length).toBeGreaterThan(10);
    const names = patchesCommandSchema.options.map(({ shape }) => shape.do.value as PatchesCommand['do']);
    expect(Object.keys(PATCHES_PERMISSIONS).sort()).toEqual([...names].sort());
  });

  it('does not pass over a fact of its own that it does not know', () => {
    const desk = opened();
    expect(() => desk.hear({ from: 'patches', by: BY, fact: { is: 'holeDug' } })).toThrow('holeDug');
  });
});
