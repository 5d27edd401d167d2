/** Stories a person can open: those shipped, found when the page is built, and any file of their own. */
import { parse } from 'yaml';
import { storyTroubles } from '../../machines/line/story.ts';
import { type Story, storySchema } from '../../machines/scenario/story.schema.ts';

export type Opened =
  | { readonly ok: true; readonly story: Story }
  | { readonly ok: false; readonly because: readonly string[] };

const pathText = (path: readonly PropertyKey[]): string => path.map(String).join('.');

/** Reads a story from its text; says what is wrong with it when it is not sound. */
export const readStory = (text: string): Opened => {
  let data: unknown;
  try {
    data = parse(text);
  } catch (error) {
    return { ok: false, because: [`This is not YAML: ${(error as Error).message.split('\n')[0]}`] };
  }
  const parsed = storySchema.safeParse(data);
  if (!parsed.success)
    return {
      ok: false,
      because: parsed.error.issues.slice(0, 4).map(({ path, message }) => {
        const place = pathText(path);
        return place === '' ? `This is no story file: ${message}` : `${place}: ${message}`;
      }),
    };
  const troubles = storyTroubles(parsed.data).map(({ path, what }) => `${pathText(path)}: ${what}`);
  return troubles.length > 0
    ? { ok: false, because: troubles.slice(0, 4) }
    : { ok: true, story: parsed.data };
};

const texts = import.meta.glob<string>('../../scenarios/stories/*.yaml', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** In the order of their rules. */
export const SHIPPED: readonly Story[] = Object.values(texts)
  .flatMap((text) => {
    const opened = readStory(text);
    return opened.ok ? [opened.story] : [];
  })
  .sort((one, other) => one.rule.localeCompare(other.rule, 'en'));
