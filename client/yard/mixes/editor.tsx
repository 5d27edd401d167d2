/** The sheet of one mix: blend, binder, weights, temperatures and cost worked out live, with a summary beside them. */
import { useMemo } from 'react';
import { Link } from 'wouter';
import { mixSchema } from '../../../machines/scenario/mix.schema.ts';
import type { PlantSpec } from '../../../machines/scenario/plant.schema.ts';
import { bandOf, leaned } from '../../../machines/yard/mixes/band.ts';
import { usualConditions } from '../../../machines/yard/mixes/conditions.ts';
import { factorValues } from '../../../machines/yard/mixes/factors.ts';
import { mixSheet } from '../../../machines/yard/mixes/sheet.ts';
import type { MixesView, MixView } from '../../../machines/yard/mixes/view.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { PartBinder } from './part-binder.tsx';
import { PartBlend } from './part-blend.tsx';
import { PartCost } from './part-cost.tsx';
import { PartRest } from './part-rest.tsx';
import { PartSensitivity } from './part-sensitivity.tsx';
import { PartTemperatures } from './part-temperatures.tsx';
import { PartTrials } from './part-trials.tsx';
import { PartWeights } from './part-weights.tsx';
import { Summary } from './summary.tsx';
import { useDraft } from './use-draft.ts';
import { useKept } from './use-kept.ts';
import { type MixesHere, useMixes } from './use-mixes.ts';
import { BookWaiting } from './waiting.tsx';
import { minutesOf } from './words.ts';

function Sheet({
  mix,
  view,
  plant,
  book,
}: {
  readonly mix: MixView;
  readonly view: MixesView;
  readonly plant: PlantSpec;
  readonly book: MixesHere;
}) {
  const inForce = mix.versions.find((one) => one.state === 'approved') ?? mix.versions[0];
  const base = inForce?.content as NonNullable<typeof inForce>['content'];
  const draft = useDraft(mix.id, base);
  const { content } = draft;
  const begun = mix.versions.find((one) => one.content.version === draft.from.version)?.content ?? base;
  const usual = useMemo(
    () =>
      usualConditions(
        content,
        plant,
        view.morning?.startC ?? 15,
        minutesOf(view.morning?.startsAt ?? '06:00'),
      ),
    [content, plant, view.morning],
  );
  const [conditions, changeConditions, resetConditions] = useKept(`mix-conditions.${mix.id}`, usual);
  const factors = useMemo(() => factorValues(view.factors), [view.factors]);
  const specification = view.specifications.find((one) => one.id === content.specification) ?? null;
  const wrong = useMemo(() => {
    const read = mixSchema.safeParse(content);
    return read.success ? [] : read.error.issues.map((issue) => issue.message);
  }, [content]);
  const [target, changeTarget] = useKept(`mix-target.${mix.id}`, { leanPct: 50 });
  const band = useMemo(
    () => (specification === null ? [] : leaned(bandOf(specification), target.leanPct)),
    [specification, target.leanPct],
  );
  const made = useMemo(
    () => mixSheet({ mix: content, plant, bins: view.bins, specification, band, conditions, factors }),
    [content, plant, view.bins, specification, band, conditions, factors],
  );

  return (
    <div className="stack mx">
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      {made.ok ? (
        <div className="mx-editor">
          <Summary
            mix={mix}
            base={begun}
            draft={draft}
            sheet={made.sheet}
            wrong={wrong}
            specification={specification}
            book={book}
          />
          <div className="mx-main stack">
            <PartBlend
              mix={mix}
              view={view}
              content={content}
              blend={made.sheet.blend}
              specification={specification}
              leanPct={target.leanPct}
              onLean={(leanPct) => changeTarget({ leanPct })}
              onChange={draft.change}
              book={book}
            />
            <PartBinder
              content={content}
              binder={made.sheet.binder}
              blend={made.sheet.blend}
              onChange={draft.change}
            />
            <PartWeights
              content={content}
              plant={plant}
              weights={made.sheet.weights}
              bins={view.bins}
              onChange={draft.change}
            />
            <PartTemperatures
              content={content}
              temperatures={made.sheet.temperatures}
              conditions={conditions}
              onConditions={changeConditions}
              onUsual={resetConditions}
              onChange={draft.change}
            />
            <PartSensitivity sensitivities={made.sheet.sensitivities} />
            <PartCost cost={made.sheet.cost} factors={view.factors} book={book} />
            <PartRest content={content} specifications={view.specifications} onChange={draft.change} />
            <PartTrials mix={mix} sheet={made.sheet} content={content} book={book} />
          </div>
        </div>
      ) : (
        <section className="card stack">
          <h2>This mix cannot be worked out on this plant</h2>
          <ul>
            {made.because.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
          <div className="row">
            {draft.undo !== null && (
              <button type="button" className="button" onClick={draft.undo}>
                Undo the last step
              </button>
            )}
            <button type="button" className="button" onClick={draft.forget}>
              Begin again from version {base.version}
            </button>
          </div>
        </section>
      )}
    </div>
  );
}

export function Editor({ id }: { readonly id: string }) {
  const book = useMixes();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  const mix = view.mixes.find((one) => one.id === id);
  if (mix === undefined)
    return (
      <section className="card">
        <p>
          There is no mix {id}. <Link href="/yard/mixes">See all mixes</Link>
        </p>
      </section>
    );
  if (view.plant === null)
    return <section className="card">Open a shift first, so that the plant is known.</section>;
  return <Sheet mix={mix} view={view} plant={view.plant} book={book} />;
}
