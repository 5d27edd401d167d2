/** Charts read into boxes and arrows, worded, sized and laid out by elk. */
import ELK from 'elkjs/lib/elk.bundled.js';
import { describe, expect, it } from 'vitest';
import { createMachine, initialTransition } from 'xstate';
import { elkGraphOf, nodeId } from '../../client/charts/elk-graph.ts';
import { activePaths, type Box, boxesOf, graphOf, leavesOf } from '../../client/charts/graph.ts';
import { layoutOf } from '../../client/charts/layout.ts';
import { KNOWN, knownBy } from '../../client/charts/registry.ts';
import { centrePose, fitPose, isInSight, scaleAbout } from '../../client/charts/use-pan-zoom.ts';
import { eventWords, spaced, stateWords } from '../../client/charts/words.ts';

const small = createMachine({
  id: 'small',
  initial: 'off',
  on: { 'operator.reset': '.off' },
  states: {
    off: { meta: { title: 'Fan off', instruction: 'Start it.' }, on: { 'operator.startFan': 'on' } },
    on: {
      initial: 'slow',
      after: { 5000: 'off' },
      on: { 'off.drumFanProved': 'off' },
      states: { slow: { always: { target: 'fast', guard: 'warm' } }, fast: {} },
    },
  },
});

describe('words', () => {
  it('come from the signals and from the names of commands and delays', () => {
    expect(eventWords('on.purged')).toBe('Drum purged');
    expect(eventWords('off.fuelShut')).toBe('no longer: dryer fuel valve proved shut');
    expect(eventWords('operator.lightBurner')).toBe('person: light burner');
    expect(eventWords('xstate.after.trialForIgnition.burner.pilotTrial')).toBe('after trial for ignition');
    expect(eventWords('xstate.after.5000.small.on')).toBe('after 5 s');
    expect(eventWords('')).toBe('at once');
    expect(spaced('noPilotFlame')).toBe('no pilot flame');
  });

  it('tell a latched trip by its cause', () => {
    expect(stateWords('FT-01')).toMatch(/^FT-01 \S+/);
    expect(stateWords('burnerGoingOut')).toBe('Burner going out');
  });
});

describe('a chart as boxes and arrows', () => {
  const graph = graphOf(small);

  it('keeps the nesting, the titles and where it begins', () => {
    expect(boxesOf(graph.root).map((box) => box.path)).toEqual(['', 'off', 'on', 'on.slow', 'on.fast']);
    expect(graph.root.begins).toBe('off');
    expect(boxesOf(graph.root)[1]).toMatchObject({ title: 'Fan off', instruction: 'Start it.' });
    expect(boxesOf(graph.root)[3]?.title).toBe('Slow');
  });

  it('joins transitions between the same two states to one arrow with all their words', () => {
    const back = graph.arrows.find((arrow) => arrow.from === 'on' && arrow.to === 'off');
    expect(back?.labels.toSorted()).toEqual(['after 5 s', 'no longer: dryer fan moves enough air']);
    expect(graph.arrows.find((arrow) => arrow.from === 'on.slow')?.labels).toEqual(['at once if warm']);
    expect(graph.arrows.find((arrow) => arrow.from === '')?.to).toBe('off');
  });

  it('lights an active state with all that hold it, and finds where the chart stands', () => {
    const paths = activePaths(['small.on.fast']);
    expect([...paths]).toEqual(['', 'on', 'on.fast']);
    expect(leavesOf(graph.root, paths).map((box) => box.path)).toEqual(['on.fast']);
  });
});

describe('the registry', () => {
  it('knows each machine by its id, however it is written', () => {
    for (const { machine } of KNOWN) expect(knownBy(machine.id)?.machine).toBe(machine);
    expect(knownBy('emulsion-batch')?.name).toBe('Emulsion batch');
    expect(knownBy('no such chart')).toBeNull();
  });

  it('names each chart once', () => {
    expect(new Set(KNOWN.map((each) => each.name)).size).toBe(KNOWN.length);
  });

  it.each(KNOWN.map((each) => [each.name, each] as const))(
    '%s: its first states are boxes',
    (_name, known) => {
      const [snapshot] = initialTransition(known.machine);
      const boxes = new Set(
        boxesOf(graphOf(known.machine).root).map((box) => `${known.machine.id}.${box.path}`),
      );
      const ids = snapshot._nodes
        .filter((node: { path: string[] }) => node.path.length > 0)
        .map((node: { id: string }) => node.id);
      for (const id of ids) expect(boxes.has(id), id).toBe(true);
    },
  );
});

const contains = (outer: { x: number; y: number; w: number; h: number }, inner: typeof outer) =>
  inner.x >= outer.x - 0.5 &&
  inner.y >= outer.y - 0.5 &&
  inner.x + inner.w <= outer.x + outer.w + 0.5 &&
  inner.y + inner.h <= outer.y + outer.h + 0.5;

describe('the layout', () => {
  const elk = new ELK();

  it.each(KNOWN.map((each) => [each.name, each] as const))(
    '%s: children lie in their parents, sisters apart, every arrow drawn',
    async (_name, known) => {
      const graph = graphOf(known.machine);
      const layout = await layoutOf(graph, elk);
      const at = (box: Box) => {
        const placed = layout.boxes.get(nodeId(box.path));
        if (placed === undefined) throw new Error(`${box.path} was not placed`);
        return placed;
      };
      for (const box of boxesOf(graph.root))
        for (const child of box.children) {
          expect(contains(at(box), at(child)), child.path).toBe(true);
          for (const sister of box.children)
            if (sister !== child) {
              const [a, b] = [at(child), at(sister)];
              const apart = a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;
              expect(apart, `${child.path} over ${sister.path}`).toBe(true);
            }
        }
      for (const arrow of graph.arrows) {
        const line = layout.arrows.get(arrow.id);
        expect(line?.points.length, arrow.id).toBeGreaterThanOrEqual(2);
        expect(
          contains(
            { x: 0, y: 0, w: layout.widthPx, h: layout.heightPx },
            line?.label ?? { x: 0, y: 0, w: 0, h: 0 },
          ),
        ).toBe(true);
      }
    },
    60_000,
  );

  it('rejects with the reason when a chart cannot be laid out at all', async () => {
    const broken = { layout: () => Promise.reject(new Error('no room')) };
    await expect(layoutOf(graphOf(small), broken)).rejects.toThrow('no room');
  });

  it('gives every box room for its title', () => {
    const page = elkGraphOf(graphOf(small), 'DOWN');
    const root = page.children?.[0];
    expect(root?.children?.map((child) => child.id)).toEqual(['start:', 'off', 'on']);
    expect(root?.children?.[1]?.width).toBeGreaterThan(60);
  });
});

describe('pan and zoom', () => {
  it('keeps the point under the pointer in its place', () => {
    const pose = { x: 30, y: -20, k: 0.8 };
    const next = scaleAbout(pose, 200, 150, 1.3);
    expect((200 - next.x) / next.k).toBeCloseTo((200 - pose.x) / pose.k);
    expect((150 - next.y) / next.k).toBeCloseTo((150 - pose.y) / pose.k);
  });

  it('fits the whole and centres a part without needless margin', () => {
    const frame = { w: 1000, h: 600 };
    const picture = { w: 4000, h: 1200 };
    const whole = fitPose(picture, frame);
    expect(isInSight(whole, { x: 0, y: 0, ...picture }, frame)).toBe(true);
    const corner = centrePose({ x: 0, y: 0, w: 100, h: 40 }, picture, frame, 1);
    expect(corner).toEqual({ k: 1, x: 0, y: 0 });
    expect(isInSight(corner, { x: 0, y: 0, w: 100, h: 40 }, frame)).toBe(true);
  });
});
