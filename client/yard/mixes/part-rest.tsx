/** Every other field of a mix file: times, tolerances, the binder's own figures, windows of the aggregate, names. */
import { useId } from 'react';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import { wordsOf } from '../../../machines/yard/mixes/difference.ts';
import { fieldAt, withField } from '../../../machines/yard/mixes/fields.ts';
import { NumberField } from './number-field.tsx';

/** Path, and the range its number may have, as the mix schema has it. */
type Ranged = readonly [path: string, min: number, max: number];

const GROUPS: readonly { readonly title: string; readonly fields: readonly Ranged[] }[] = [
  {
    title: 'Times',
    fields: [
      ['times.preWetMixS', 0, 600],
      ['times.binderMixS', 5, 600],
      ['times.extraMixS', 5, 120],
      ['times.longestMixS', 30, 1800],
    ],
  },
  {
    title: 'Weighing limits around target',
    fields: [
      ['tolerance.aggregatePct', 0.1, 10],
      ['tolerance.binderPct', 0.1, 10],
      ['tolerance.waterPct', 0.1, 25],
    ],
  },
  {
    title: 'The binder itself',
    fields: [
      ['binder.densityAt15KgM3', 800, 1200],
      ['binder.solventMassPct', 0, 45],
      ['binder.flashC', 20, 300],
      ['binder.viscosity.1.tempC', 0, 200],
      ['binder.viscosity.1.mm2S', 0.5, 1_000_000],
      ['binder.viscosity.2.tempC', 0, 200],
      ['binder.viscosity.2.mm2S', 0.5, 1_000_000],
    ],
  },
  {
    title: 'Aggregate and lots',
    fields: [
      ['windows.aggregateC.fromC', -20, 200],
      ['windows.aggregateC.toC', -20, 200],
      ['windows.drawAtC', 0, 200],
      ['drying.outC', 80, 180],
      ['lotKg', 1000, 100_000],
      ['samplesPerLot', 0, 10],
    ],
  },
];

const NONE = '';

function Text({
  content,
  path,
  wide = false,
  onChange,
}: {
  readonly content: Mix;
  readonly path: string;
  readonly wide?: boolean;
  readonly onChange: (field: string, content: Mix) => void;
}) {
  const id = useId();
  const value = fieldAt(content, path);
  return (
    <div className={wide ? 'field wide' : 'field'}>
      <label htmlFor={id}>{wordsOf(path)[0]}</label>
      {wide ? (
        <textarea
          id={id}
          rows={3}
          maxLength={1000}
          value={String(value ?? '')}
          onChange={(event) => onChange(path, withField(content, path, event.target.value))}
        />
      ) : (
        <input
          id={id}
          type="text"
          maxLength={80}
          value={String(value ?? '')}
          onChange={(event) => onChange(path, withField(content, path, event.target.value))}
        />
      )}
    </div>
  );
}

export function PartRest({
  content,
  specifications,
  onChange,
}: {
  readonly content: Mix;
  readonly specifications: readonly Specification[];
  readonly onChange: (field: string, content: Mix) => void;
}) {
  const id = useId();
  const known = specifications.some((one) => one.id === content.specification);
  return (
    <section className="card stack" aria-labelledby="mx-rest">
      <h2 id="mx-rest">All else in the mix file</h2>
      <details className="mx-more">
        <summary>Names, times, weighing limits, the binder's own figures</summary>
        <div className="mx-text">
          <Text content={content} path="name" onChange={onChange} />
          <Text content={content} path="binder.grade" onChange={onChange} />
          <Text content={content} path="basis" wide onChange={onChange} />
          <div className="field">
            <label htmlFor={`${id}-specification`}>Specification its lots are judged by</label>
            <select
              id={`${id}-specification`}
              value={content.specification ?? NONE}
              onChange={(event) =>
                onChange(
                  'specification',
                  withField(
                    content,
                    'specification',
                    event.target.value === NONE ? undefined : event.target.value,
                  ),
                )
              }
            >
              <option value={NONE}>none</option>
              {specifications
                .filter((one) => one.family === content.family || one.family === 'either')
                .map((one) => (
                  <option key={one.id} value={one.id}>
                    {one.name}
                  </option>
                ))}
              {!known && content.specification !== undefined && (
                <option value={content.specification}>{content.specification}</option>
              )}
            </select>
          </div>
        </div>
        {GROUPS.map(({ title, fields }) => (
          <div key={title}>
            <h3>{title}</h3>
            <div className="mx-fields">
              {fields.map(([path, min, max]) => {
                const value = fieldAt(content, path);
                const [words, unit] = wordsOf(path);
                return typeof value === 'number' ? (
                  <NumberField
                    key={path}
                    label={words}
                    unit={unit}
                    value={value}
                    min={min}
                    max={max}
                    onChange={(now) => onChange(path, withField(content, path, now))}
                  />
                ) : null;
              })}
            </div>
          </div>
        ))}
      </details>
    </section>
  );
}
