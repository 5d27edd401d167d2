/** Every rule has a story of its breach, and the charts as they are stop each. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { playStory, storyTroubles } from '../../machines/line/story.ts';
import { storySchema } from '../../machines/scenario/story.schema.ts';
import { inPlainWords } from './stories/story-of.ts';
import { tellings, UNTOLD } from './stories/told.ts';

describe('stories', () => {
  const told = [...tellings()];

  it('every rule has one, but those named with a reason', () => {
    expect(told.filter(({ story }) => story === null).map(({ rule }) => rule)).toEqual(
      told.filter(({ rule }) => UNTOLD[rule] !== undefined).map(({ rule }) => rule),
    );
    expect(told.filter(({ story }) => story !== null).length).toBeGreaterThan(40);
  });

  for (const { rule, story } of told) {
    if (story === null) continue;
    it(`${rule}: the story of "${story.broken}" is sound, and the real charts stop it`, () => {
      expect(storySchema.parse(story)).toEqual(story);
      expect(storyTroubles(story)).toEqual([]);
      expect(playStory(story).stopsAt).not.toBeNull();
      // No names of events or of files where a person reads.
      expect(inPlainWords(story)).not.toMatch(/\b(on|off|operator|line|scale|xstate)\.\w/);
    });
  }

  it('the stories shipped are those the exploration tells now', () => {
    const folder = new URL('../../scenarios/stories/', import.meta.url);
    const files = readdirSync(folder);
    expect(files.length).toBeGreaterThanOrEqual(8);
    for (const file of files) {
      const shipped = storySchema.parse(parse(readFileSync(new URL(file, folder), 'utf8')));
      const now = told.find(({ rule }) => file === `${rule.toLowerCase()}.yaml`);
      expect(shipped, `${file}: write it anew with npm run -s explore -- --stories FOLDER`).toEqual(
        now?.story,
      );
    }
  });

  it('a story of the true charts is stopped nowhere: the player itself tells them apart by nothing else', () => {
    const story = told.find(({ rule }) => rule === 'NR-08')?.story;
    if (story == null) throw new Error('no story of NR-08');
    const { steps } = playStory(story);
    const real = {
      ...story,
      steps: story.steps.map((step, at) => ({ ...step, states: steps[at]?.real ?? {} })),
    };
    expect(playStory(storySchema.parse(real)).stopsAt).toBeNull();
  });

  it('a story that names a state no chart has, or an element there is not, says so', () => {
    const story = told.find(({ rule }) => rule === 'NR-01')?.story;
    if (story == null) throw new Error('no story of NR-01');
    const wrong = storySchema.parse({
      ...story,
      start: { ...story.start, burner: 'melted' },
      steps: [{ event: 'on.purged', means: 'Purged', states: { lot: 'open' }, asked: { tap: true } }],
    });
    expect(storyTroubles(wrong).map(({ what }) => what)).toEqual([
      '"melted" is no state of the chart burner',
      'lot is not among the charts of the start',
      'there is no element tap',
    ]);
  });
});
