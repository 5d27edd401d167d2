/** The desk of the page that stands alone runs the real charts and gate: each step here is what the line would do. */
import { describe, expect, it } from 'vitest';
import {
  type Desk,
  openDesk,
  PURGE_VOLUMES,
  passed,
  stateOfChart,
  withTick,
} from '../../client/interlock/desk.ts';
import { storyBetween } from '../../client/interlock/desk-story.ts';
import {
  askFor,
  causesOf,
  lightBurner,
  purgeDrum,
  resetBurner,
  resetTrip,
} from '../../client/interlock/desk-view.ts';
import { TICK_GROUPS, type Tick } from '../../client/interlock/ticks.ts';
import { CAUSE_IDS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';

const wait = (desk: Desk, seconds: number): Desk => {
  let next = desk;
  for (let i = 0; i < seconds * 5; i += 1) {
    const later = passed(next, 200);
    if (later === next) return next;
    next = later;
  }
  return next;
};
const ticked = (...ticks: readonly Tick[]): Desk =>
  ticks.reduce((desk, tick) => withTick(desk, tick, true), openDesk());
const lit = (): Desk => wait(lightBurner(openDesk()).desk, 30);
const ALL = TICK_GROUPS.flatMap(({ ticks }) => Object.keys(ticks) as Tick[]);

describe('at rest', () => {
  it('nothing stands against anything', () => {
    const desk = openDesk();
    expect(causesOf(desk)).toEqual({ holding: [], latched: [] });
    expect(desk.held).toEqual([]);
    expect(desk.purgeVolumes).toBe(PURGE_VOLUMES);
  });

  it('time changes nothing', () => {
    const desk = openDesk();
    expect(passed(desk, 60_000)).toBe(desk);
  });
});

describe('each tick', () => {
  it.each(ALL)('%s holds some cause, and can be cleared again', (tick) => {
    let desk = withTick(openDesk(), tick, true);
    // These matter only once something is open or burns.
    const alone: readonly Tick[] = ['scannerBlind', 'drumAirLost'];
    if (!alone.includes(tick)) expect(wait(desk, 8).charts).not.toBe(openDesk().charts);
    if (!alone.includes(tick)) expect(causesOf(wait(desk, 8)).holding.length).toBeGreaterThan(0);
    desk = wait(withTick(wait(desk, 8), tick, false), 1);
    if (causesOf(desk).latched.some((id) => id.startsWith('FT'))) {
      const reset = resetTrip(desk);
      expect(reset.because).toEqual([]);
      desk = reset.desk;
    }
    if (causesOf(desk).latched.length > 0) desk = resetBurner(desk).desk;
    if (stateOfChart(desk, 'burner') === 'off' && causesOf(desk).holding.length > 0)
      desk = purgeDrum(desk).desk;
    expect(causesOf(wait(desk, 20))).toEqual({ holding: [], latched: [] });
  });

  it('together they reach every permissive, trip and tank cause of the cutback tank but the ones named', () => {
    const reached = new Set<string>();
    const look = (desk: Desk): void => {
      const { holding, latched } = causesOf(desk);
      for (const id of [...holding, ...latched]) reached.add(id);
    };
    ALL.forEach((first, i) => {
      for (const second of ALL.slice(i)) look(wait(ticked(first, second), 8));
    });
    const burning = lit();
    for (const tick of ALL) look(wait(withTick(burning, tick, true), 8));
    const open = askFor(ticked('bucketCutback'), 'bucketValve').desk;
    look(withTick(open, 'aggregateHot', true));
    look(lightBurner(ticked('mixerCutback')).desk);
    const missing = CAUSE_IDS.filter((id) => /^(FI|FT|TC)/.test(id) && !reached.has(id));
    // TC-05 is for a fire tube, and this tank is heated by oil.
    expect(missing).toEqual(['TC-05']);
  });
});

describe('lighting', () => {
  it('purges first, then burns', () => {
    const asked = lightBurner(openDesk());
    expect(asked.because).toEqual([]);
    expect(asked.desk.outputs.burnerPilot).toBe(false);
    expect(wait(asked.desk, 3).outputs.burnerMain).toBe('shut');
    expect(lit().outputs.burnerMain).not.toBe('shut');
  });

  it('is refused with the ID and a way out while cutback is in the pug mill', () => {
    const { desk, because } = lightBurner(ticked('mixerCutback'));
    expect(because.join(' ')).toMatch(
      /FI-11 The pug mill holds solvent-bearing binder\. Finish and discharge/,
    );
    expect(desk.outputs.burnerPilot).toBe(false);
  });

  it('is undone at once when cutback comes into the pug mill: tripped, fuel shut, told in sentences', () => {
    const before = lit();
    const after = withTick(before, 'mixerCutback', true);
    expect(after.outputs.burnerMain).toBe('shut');
    expect(causesOf(after).latched).toEqual(['FT-01']);
    const story = storyBetween(before, after).join(' ');
    expect(story).toContain('Tripped by FT-01');
    expect(story).toContain('Dryer main fuel valve: shut.');
    expect(story).toContain('Burner: purging the drum after the flame.');
  });
});

describe('the binder valve', () => {
  it('opens for cutback when all is well, and shuts when vapour reaches the warning level', () => {
    const opened = askFor(ticked('bucketCutback'), 'bucketValve');
    expect(opened.because).toEqual([]);
    expect(opened.desk.outputs.bucketValve).toBe(true);
    const shut = withTick(opened.desk, 'vapourRaised', true);
    expect(shut.outputs.bucketValve).toBe(false);
    expect(shut.held.map(({ key }) => key)).toEqual(['bucketValve']);
    // and does not open again by itself
    expect(withTick(shut, 'vapourRaised', false).outputs.bucketValve).toBe(false);
  });

  it('is not asked for with cutback in the bucket beside a flame: that has tripped already', () => {
    const desk = withTick(lit(), 'bucketCutback', true);
    expect(desk.outputs.burnerMain).toBe('shut');
    expect(askFor(desk, 'bucketValve').because.join(' ')).toContain('FT-01');
  });

  it('is no way for cutback into the bucket beside a flame either: the feed is refused', () => {
    expect(askFor(lit(), 'cutbackFeed').because.join(' ')).toContain(
      'FI-01 The dryer flame is not proven out',
    );
  });
});

describe('a trip', () => {
  it('is not reset while its cause stands', () => {
    const desk = ticked('vapourHigh');
    expect(resetTrip(desk).because.join(' ')).toContain('FT-02 Vapour at the hood reached the trip level');
    const cleared = withTick(desk, 'vapourHigh', false);
    expect(causesOf(cleared).latched).toEqual(['FT-02']);
    expect(resetTrip(cleared).because).toEqual([]);
  });

  it('says so when nothing is tripped', () =>
    expect(resetTrip(openDesk()).because).toEqual(['Nothing is tripped.']));
});

describe('heat', () => {
  it('is refused during a delivery and taken away when one begins', () => {
    expect(askFor(ticked('delivery'), 'heat').because.join(' ')).toContain('TC-04');
    const heating = askFor(openDesk(), 'heat').desk;
    expect(heating.outputs.cutbackCoil).toBe(true);
    expect(withTick(heating, 'delivery', true).outputs.cutbackCoil).toBe(false);
  });
});
