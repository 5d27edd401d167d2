/** Samples to be taken, put together by what is to be done: several may fall on one discharge. Pure. */
import type { SamplePrompt } from '../../../machines/line/view.types.ts';

export type PromptGroup = {
  readonly key: string;
  readonly level: SamplePrompt['level'];
  readonly words: string;
  readonly prompts: readonly SamplePrompt[];
};

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const WHERE: { readonly [L in Exclude<SamplePrompt['level'], 'missed'>]: (batch: number | null) => string } =
  {
    due: () => 'from the next discharge',
    now: (batch) => `now: batch ${batch} is being discharged`,
    overdue: (batch) => `from the bay now: batch ${batch} lies on top until the next discharge buries it`,
  };

/** A missed one stands alone, in its own words: each needs its own reason. */
export function groupsOf(prompts: readonly SamplePrompt[]): readonly PromptGroup[] {
  const groups = new Map<string, SamplePrompt[]>();
  for (const prompt of prompts) {
    const { level, lot, batch, sample } = prompt;
    const key = level === 'missed' ? `missed/${lot}/${sample}` : `${level}/${lot}/${batch}`;
    groups.set(key, [...(groups.get(key) ?? []), prompt]);
  }
  return [...groups].map(([key, own]) => {
    const [first] = own as [SamplePrompt, ...SamplePrompt[]];
    const words =
      own.length === 1 || first.level === 'missed'
        ? first.words
        : `Take samples ${listed(own.map(({ sample }) => String(sample)))} ${WHERE[first.level](first.batch)}`;
    return { key, level: first.level, words, prompts: own };
  });
}
