/** A worksheet on the screen: entry at the left, what comes of it at the right while the numbers come in. */
import type { ReactNode } from 'react';
import type { Sheet } from '../../../machines/lab/worksheets/index.ts';
import { sieveOf } from '../../../machines/scenario/lab-tests.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import { bandOf } from '../book-like.ts';
import { GradationPlot } from '../plot/gradation-plot.tsx';
import { EntryGrid } from './entry-grid.tsx';
import type { useSheet } from './use-sheet.ts';
import { Wanted, Working } from './working.tsx';
import './worksheets.css';

export function SheetForm({
  sheet,
  spec,
  state,
  nowAt,
  onEnd,
  beside = null,
  children,
}: {
  readonly sheet: Sheet;
  readonly spec: Specification | null;
  readonly state: ReturnType<typeof useSheet>;
  readonly nowAt: string;
  readonly onEnd: () => void;
  /** Below what it gives. */
  readonly beside?: ReactNode;
  /** Buttons below the fields. */
  readonly children: ReactNode;
}) {
  const limits = (spec?.limits ?? []).filter(({ when }) => when === undefined);
  const shown = state.preview ?? state.worked;
  const passing = shown.ok
    ? shown.results.flatMap(({ property, value }) => {
        const mm = sieveOf(property);
        return mm === null ? [] : [{ mm, pct: value }];
      })
    : [];
  return (
    <div className="sheet-form">
      <section className="card stack" aria-label="Readings">
        <EntryGrid
          fields={state.fields}
          readings={state.readings}
          problems={state.problems}
          nowAt={nowAt}
          onChange={state.change}
          onEnd={onEnd}
        />
        {children}
      </section>
      <div className="stack sheet-side">
        <section className="card stack" aria-labelledby="working-head">
          <h3 id="working-head">What it gives</h3>
          {state.preview !== null && <Wanted labels={state.wanted.map(({ label }) => label)} />}
          <Working worked={shown} wanted={state.wanted.map(({ label }) => label)} limits={limits}>
            {sheet.test === 'gradation' && (
              <GradationPlot title="Grading against the band" passing={passing} band={bandOf(spec)} />
            )}
          </Working>
          <p className="soft-line">{sheet.basis}</p>
        </section>
        {beside}
      </div>
    </div>
  );
}
