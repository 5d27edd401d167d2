/** A breach as a story: each event with its meaning, and where the broken charts stood after it. */
import type { ChartValue } from '../../../machines/charts/flame-interlock/flame-interlock.guards.ts';
import { AT_REST, type Outputs } from '../../../machines/field/outputs.ts';
import { GATE_RULES, type GateRules, gate } from '../../../machines/line/gate.ts';
import { type StoryStates, titlesOf } from '../../../machines/line/story.ts';
import type { Story, StoryChart, StoryStep } from '../../../machines/scenario/story.schema.ts';
import type { Model, Violation } from '../explorer.ts';
import { SAFE, WANTS } from '../mutations/gate-hunt.ts';
import { breachesOf } from '../mutations/gate-judge.ts';
import { NEVER, type NeverId } from '../never-rules.ts';
import { TANKS_SAFE } from '../tank-models.ts';
import { meaningOf } from './plant-words.ts';

const notAtRest = (outputs: Outputs): Partial<Outputs> =>
  Object.fromEntries(
    Object.entries(outputs).filter(([key, value]) => value !== AT_REST[key as keyof Outputs]),
  );

/** What was asked of the broken gate and let through against the rule: the least that shows it. */
export const letThroughAgainst = (
  rule: NeverId,
  charts: StoryStates,
  rules: Partial<GateRules>,
): Pick<StoryStep, 'asked' | 'through'> => {
  const interlock = { ...SAFE, trip: 'watching', ...(charts.interlock as object | undefined) };
  const burner = charts.burner ?? 'off';
  const tanks = {
    emulsion: charts.emulsionTankInterlock ?? TANKS_SAFE.emulsion,
    cutback: charts.cutbackTankInterlock ?? TANKS_SAFE.cutback,
  };
  const seen = WANTS.flatMap((wanted) => {
    const { outputs } = gate(wanted, interlock, burner, tanks, { ...GATE_RULES, ...rules });
    const admits = burner === 'off' ? 'off' : 'pilotTrial';
    const broken = breachesOf({ interlock, tanks, burner: admits }, outputs).includes(rule);
    return broken ? [{ asked: notAtRest(wanted), through: notAtRest(outputs) }] : [];
  });
  const size = (one: { readonly asked: object }): number => Object.keys(one.asked).length;
  const [least] = seen.sort((one, other) => size(one) - size(other));
  return least === undefined ? {} : (least as Pick<StoryStep, 'asked' | 'through'>);
};

const changed = (before: StoryStates, after: StoryStates): StoryStates =>
  Object.fromEntries(
    Object.entries(after).filter(
      ([chart, value]) => JSON.stringify(value) !== JSON.stringify(before[chart as StoryChart]),
    ),
  );

export type Told = {
  readonly rule: NeverId;
  readonly broken: string;
  readonly rules?: Partial<GateRules>;
  /** What the broken charts ask of the plant at the end, where that is what was broken. */
  readonly demands?: Partial<Outputs>;
  /** What would stop it and comes to nothing, at the end. */
  readonly lastEvent?: string;
};

export const storyOf = (told: Told, model: Model, violation: Violation): Story => {
  if (model.charts === undefined) throw new Error(`${model.name} does not say where its charts stand`);
  const { rule, broken, rules } = told;
  const [first, ...rest] = violation.path;
  const start = model.charts(first?.state ?? model.start);
  let before = start;
  let from = first?.state ?? model.start;
  const steps = rest.map(({ event, state }, at): StoryStep => {
    const type = model.events[event] as string;
    const charts = model.charts?.(state) ?? {};
    const offers = model.offers?.(from, event) ?? [];
    const step: StoryStep = {
      event: type,
      means: meaningOf(type),
      offers: [...offers],
      states: changed(before, charts) as StoryStep['states'],
      ...(rules !== undefined && at === rest.length - 1 ? letThroughAgainst(rule, charts, rules) : {}),
    };
    before = charts;
    const gated = model.gateAt?.(from, event, state) ?? null;
    from = state;
    return gated === null ? step : { ...step, ...(gated as Pick<StoryStep, 'asked' | 'through'>) };
  });
  if (told.lastEvent !== undefined)
    steps.push({ event: told.lastEvent, means: meaningOf(told.lastEvent), offers: [], states: {} });
  // A breach in the very first state: nothing has to happen but that the gate is asked.
  if (steps.length === 0)
    steps.push({
      event: 'line steps',
      means: 'Nothing has to happen: this is how it begins',
      offers: [],
      states: {},
      ...(rules === undefined ? {} : letThroughAgainst(rule, start, rules)),
    });
  const last = steps.at(-1);
  if (told.demands !== undefined && last !== undefined)
    steps[steps.length - 1] = { ...last, demands: told.demands as { [key: string]: boolean | string } };
  return {
    kind: 'story',
    id: `${rule.toLowerCase()}-${broken
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')}`
      .slice(0, 60)
      .replace(/-$/, ''),
    name: `${broken[0]?.toUpperCase()}${broken.slice(1)}`,
    rule,
    never: NEVER[rule],
    broken,
    start: start as Story['start'],
    steps,
  };
};

/** A story on a screen without colours: one line an event, with what changed by it. */
export const inPlainWords = (story: Story): string => {
  let now: { [chart: string]: unknown } = { ...story.start };
  const lines = story.steps.map((step, at) => {
    const news = Object.entries(step.states).flatMap(([chart, value]) =>
      titlesOf(chart as StoryChart, value as ChartValue, now[chart] as ChartValue | undefined),
    );
    now = { ...now, ...step.states };
    const through =
      step.through === undefined
        ? ''
        : ` The broken gate lets through: ${Object.keys(step.through).join(', ')}.`;
    const asks =
      step.demands === undefined
        ? ''
        : ` The broken chart asks for: ${Object.keys(step.demands).join(', ') || 'nothing'}.`;
    return `  ${at + 1}. ${step.means}.${news.length === 0 ? '' : ` → ${news.join('; ')}.`}${asks}${through}`;
  });
  return [`${story.rule} ${story.never}`, `  Broken: ${story.broken}.`, ...lines].join('\n');
};
