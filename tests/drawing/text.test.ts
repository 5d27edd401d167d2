/** Words fitted into the drawing, figures with their units, what counts as abnormal. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askedOf, describe as describeView, readingsOf } from '../../client/drawing/facts.ts';
import { bayInUse, familyInUse } from '../../client/drawing/family.ts';
import { figure, tonnes } from '../../client/drawing/figures.ts';
import { HEIGHT, itemsOf, WIDTH } from '../../client/drawing/items.ts';
import { allNotes, itemSpokenOf, offRange } from '../../client/drawing/notes.ts';
import { elide, textWidthPx, wrap } from '../../client/drawing/text.ts';
import { TAG_NAMES } from '../../machines/field/tags.ts';
import { views } from './fixture.ts';

describe('fitting words', () => {
  it('elides to what fits and never beyond', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), fc.integer({ min: 0, max: 300 }), (text, room) => {
        const short = elide(text, room, 12.5);
        if (short !== text) expect(textWidthPx(short, 12.5)).toBeLessThanOrEqual(room);
      }),
    );
    expect(elide('purging', 500, 12)).toBe('purging');
    expect(elide('purging the drum', 60, 12)).toMatch(/^purg.*…$/);
  });

  it('wraps at spaces, keeps every word while lines last, and elides the last line', () => {
    const text = 'flame out, purging 2.1 of 5 volumes';
    expect(wrap(text, 150, 12, 3).join(' ')).toBe(text);
    const lines = wrap(text, 80, 12, 2);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatch(/…$/);
    expect(wrap('', 80, 12, 2)).toEqual([]);
  });
});

describe('figures', () => {
  it('group thousands, keep decimals, and write a true minus', () => {
    expect(figure(12_345.678, 1)).toBe('12,345.7');
    expect(figure(-4.25, 1)).toBe('−4.3');
    expect(figure(-0.01, 1)).toBe('0.0');
    expect(tonnes(38_400)).toBe('38.4 t');
  });
});

describe('what is abnormal', () => {
  const notesOf = (name: keyof typeof views) => {
    const view = views[name];
    return allNotes(itemsOf(view.plant.bins), view);
  };
  const busy = (name: keyof typeof views) =>
    Object.entries(notesOf(name))
      .filter(([, notes]) => notes.length > 0)
      .map(([id]) => id);

  it('is nothing while the plant works as it should', () => {
    expect(busy('idle')).toEqual([]);
    expect(busy('emulsionMixing')).toEqual([]);
    expect(busy('drying')).toEqual([]);
  });

  it('is the held valve and the bin it waits for while the aggregate is too hot', () => {
    expect(busy('cutbackCooling').toSorted()).toEqual(['holding', 'valve']);
    expect(notesOf('cutbackCooling').holding?.[0]?.short).toBe('too hot');
  });

  it('names trip, lost fan, faulty instruments and alarm, each at its item', () => {
    expect(busy('tripped').toSorted()).toEqual(['bin2', 'dryer', 'holding', 'hood', 'valve']);
    const notes = notesOf('tripped');
    expect(notes.valve?.[0]?.level).toBe('trip');
    expect(notes.hood?.map((note) => note.short)).toEqual(['stopped', 'vapour high']);
  });

  it('compares with the range that is waited for, not with any other', () => {
    expect(offRange(55.4, '25–55 °C')).toBe('too hot');
    expect(offRange(12, '25–55 °C')).toBe('too cold');
    expect(offRange(-8, '−5–20 °C')).toBe('too cold');
    expect(offRange(40, '25–55 °C')).toBe('not yet');
    expect(offRange(40, '')).toBe('not yet');
  });

  it('is found by the words the interlock and the alarms use', () => {
    expect(itemSpokenOf('Binder valve held shut')).toBe('valve');
    expect(itemSpokenOf('Dryer main fuel valve')).toBe('dryer');
    expect(itemSpokenOf('Cutback feed to the bucket')).toBe('bucket');
    expect(itemSpokenOf('Hood extraction is not proven')).toBe('hood');
    expect(itemSpokenOf('The aggregate is too hot for solvent-bearing binder')).toBe('holding');
    expect(itemSpokenOf('The cutback is outside its working window')).toBe('cutback');
    expect(itemSpokenOf('Bin 3 is running low')).toBe('bin3');
    expect(itemSpokenOf('Thermal oil above its limit')).toBe('oil');
    expect(itemSpokenOf('Vapour at the hood above 20 % LEL')).toBe('hood');
  });
});

describe('the way in use', () => {
  it('follows the campaign, then the chosen order, then the open lot', () => {
    expect(familyInUse(views.cutbackCooling)).toBe('cutback');
    expect(familyInUse(views.emulsionMixing)).toBe('emulsion');
    expect(familyInUse(views.idle)).toBe('cutback');
    expect(familyInUse({ ...views.idle, lots: [] })).toBeNull();
  });

  it('ends at the bay of the belt, else of the chosen order', () => {
    expect(bayInUse(views.emulsionMixing)).toBe(1);
    expect(bayInUse(views.idle)).toBeNull();
  });
});

describe('items', () => {
  const items = itemsOf(views.idle.plant.bins);

  it('stand inside the drawing and none lies over another', () => {
    for (const { box } of items) {
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.w).toBeLessThanOrEqual(WIDTH);
      expect(box.y + box.h).toBeLessThanOrEqual(HEIGHT);
    }
    for (const a of items)
      for (const b of items) {
        if (a === b) continue;
        const apart =
          a.box.x + a.box.w <= b.box.x ||
          b.box.x + b.box.w <= a.box.x ||
          a.box.y + a.box.h <= b.box.y ||
          b.box.y + b.box.h <= a.box.y;
        expect(apart, `${a.id} over ${b.id}`).toBe(true);
      }
  });

  it('are at least 44 px to touch when the drawing is 684 px wide', () => {
    for (const { id, box } of items)
      expect((Math.min(box.w, box.h) * 684) / WIDTH, id).toBeGreaterThanOrEqual(44);
  });

  it('hold every instrument of the plant once, but for the air outside, the supply and the emergency stop', () => {
    const shown = items.flatMap((item) => item.tags);
    expect(new Set(shown).size).toBe(shown.length);
    const missing = TAG_NAMES.filter((tag) => !shown.includes(tag));
    expect(missing.toSorted()).toEqual(['ambientC', 'emergencyStop', 'powerOk', 'rainMmH']);
  });

  it('each have readings and something they are asked', () => {
    for (const item of items)
      for (const view of Object.values(views)) {
        if (item.id !== 'bays') expect(readingsOf(item, view).length, item.id).toBeGreaterThan(0);
        expect(askedOf(item.id, view).length, item.id).toBeGreaterThan(0);
      }
  });
});

describe('the description', () => {
  it('says what is held and why, and what tripped', () => {
    expect(describeView(views.cutbackCooling)).toContain('Binder valve to the pug mill: Hot aggregate');
    expect(describeView(views.tripped)).toContain('Tripped: Extraction lost');
  });
});
