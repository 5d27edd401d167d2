/** What the parts of a drill file must agree on beyond what each schema can see. */
import { commandSchema } from '../line/commands.ts';
import type { Condition } from './condition.schema.ts';
import type { Drill } from './drill.schema.ts';

export type CrossFinding = { readonly path: (string | number)[]; readonly message: string };

const twice = (list: readonly { readonly id: string }[], at: string): CrossFinding[] =>
  list.flatMap((one, i) =>
    list.findIndex((other) => other.id === one.id) === i
      ? []
      : [{ path: [at, i, 'id'], message: `${one.id} stands twice` }],
  );

const named = (id: string, ids: readonly string[], what: string): string | null =>
  ids.includes(id)
    ? null
    : `names ${id}, and there is no such ${what} (there are: ${ids.join(', ') || 'none'})`;

/** What is wrong with the fields an action asks of its command. */
const withFindings = (action: Drill['never'][number]['by'][number]): readonly [string, string][] => {
  if (action.what !== 'command') return [];
  const shape: { readonly [field: string]: { safeParse: (value: unknown) => { success: boolean } } } =
    commandSchema.options.find((one) => one.shape.do.value === action.do)?.shape ?? {};
  const fields = Object.keys(shape).filter((field) => field !== 'do');
  return Object.entries(action.with).flatMap(([field, value]): [string, string][] => {
    const schema = field === 'do' ? undefined : shape[field];
    if (schema === undefined)
      return [[field, `is no field of ${action.do} (it has: ${fields.join(', ') || 'none'})`]];
    return schema.safeParse(value).success
      ? []
      : [[field, `${action.do} cannot have ${JSON.stringify(value)} here`]];
  });
};

/** Findings of a drill whose shape is sound. */
export const crossFindings = (drill: Omit<Drill, never>): CrossFinding[] => {
  const incidents = drill.incidents.map((one) => one.id);
  const expected = drill.expect.map((one) => one.id);
  const out: CrossFinding[] = [
    ...twice(drill.incidents, 'incidents'),
    ...twice(drill.expect, 'expect'),
    ...twice(drill.never, 'never'),
  ];
  const add = (path: (string | number)[], message: string | null): void => {
    if (message !== null) out.push({ path, message });
  };
  const conditions = (list: readonly Condition[], path: (string | number)[]): void => {
    list.forEach((one, i) => {
      if (one.is === 'incident') add([...path, i, 'id'], named(one.id, incidents, 'incident'));
      if (one.is === 'met') add([...path, i, 'id'], named(one.id, expected, 'expectation'));
      if ((one.is === 'reading' || one.is === 'truth') && one.above === undefined && one.below === undefined)
        add([...path, i], 'give above, below, or both');
    });
  };
  const answers = (actions: Drill['never'][number]['by'], path: (string | number)[]): void => {
    actions.forEach((action, i) => {
      for (const [field, message] of withFindings(action)) add([...path, i, 'with', field], message);
      if (action.what !== 'answer') return;
      add([...path, i, 'incident'], named(action.incident, incidents, 'incident'));
      const message = drill.incidents
        .find((one) => one.id === action.incident)
        ?.oneOf.flatMap((one) => (one.what === 'message' ? one.answers.map((answer) => answer.id) : []));
      if (message !== undefined) add([...path, i, 'answer'], named(action.answer, message, 'answer'));
    });
  };

  conditions(drill.start.until, ['start', 'until']);
  conditions(drill.endsWhen, ['endsWhen']);
  drill.incidents.forEach((one, i) => {
    conditions(one.when, ['incidents', i, 'when']);
    one.oneOf.forEach((happening, k) => {
      if (
        happening.what === 'instrument' &&
        (happening.fault === 'drift' || happening.fault === 'span') &&
        happening.by[0] === 0 &&
        happening.by[1] === 0
      )
        add(['incidents', i, 'oneOf', k, 'by'], `a ${happening.fault} needs by: [from, to], not both 0`);
    });
  });
  drill.expect.forEach((one, i) => {
    conditions(one.from, ['expect', i, 'from']);
    conditions(one.until ?? [], ['expect', i, 'until']);
    answers(one.by ?? [], ['expect', i, 'by']);
    if ((one.by === undefined) === (one.until === undefined))
      add(['expect', i], 'give either by (what is done) or until (what is reached)');
    one.after.forEach((id, k) => {
      add(['expect', i, 'after', k], named(id, expected, 'expectation'));
      if (id === one.id) add(['expect', i, 'after', k], 'comes after itself');
    });
    if (one.lateS !== undefined && one.lateS < one.withinS)
      add(['expect', i, 'lateS'], 'must not be shorter than withinS');
  });
  drill.never.forEach((one, i) => {
    conditions(one.while, ['never', i, 'while']);
    answers(one.by, ['never', i, 'by']);
    if (one.by.length === 0 && one.while.length === 0)
      add(['never', i], 'give by (what is done) or while (what is so), or both');
  });
  return out;
};
