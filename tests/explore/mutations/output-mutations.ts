/** Each output of binder, fuel and heat in each state of the charts that ask for it: opened where it is shut, left out where it is asked for. */
import { AT_REST, type Outputs } from '../../../machines/field/outputs.ts';
import { asStory, explore } from '../explorer.ts';
import { killOf, type Mutation } from './mutation.ts';
import { ASKINGS, type Asked, askingModel, tableFor } from './output-rules.ts';

/** The other side of an output: open if it was shut, at rest if it was asked for. */
const turned = (key: keyof Outputs, now: unknown): unknown => {
  if (now !== AT_REST[key]) return AT_REST[key];
  if (typeof AT_REST[key] === 'boolean') return !AT_REST[key];
  return key === 'burnerMain' ? 'low' : 'dribble';
};

export const OUTPUT_MUTATIONS: readonly Mutation[] = ASKINGS.flatMap((one) => {
  const table = tableFor(one.chart);
  return table.values.flatMap((value, state) =>
    one.keys.map((key): Mutation => {
      const now = one.asks(value)[key] ?? AT_REST[key];
      const then = turned(key, now);
      const name = table.names[state] as string;
      return {
        of: `output ${one.told} ${name} ${key}`,
        broken: `the ${one.told} ${then === AT_REST[key] ? 'leaves out' : 'asks for'} ${key} in ${name}`,
        hunt: () => {
          const asks = (at: typeof value): Asked =>
            at === value ? { ...one.asks(at), [key]: then } : one.asks(at);
          const [found] = explore(askingModel(one, asks), one.rule).violations;
          return found === undefined ? null : killOf(asStory(found));
        },
      };
    }),
  );
});
