/** Ten degrees more in the aggregate, twice the vapour at the hood. */
import { useMemo, useState } from 'react';
import {
  AGGREGATE_FROM_C,
  AGGREGATE_TO_C,
  type AggregateRow,
  aggregateAt,
  aggregateRows,
} from './aggregate.data.ts';
import { type Column, FigureTable } from './FigureTable.tsx';
import type { LessonFigures } from './figures.ts';
import { Lesson } from './Lesson.tsx';
import { Picture } from './Picture.tsx';
import { shortFigure } from './picture-scale.ts';
import { Slider } from './Slider.tsx';

const COLUMNS: readonly Column<AggregateRow>[] = [
  { head: 'Aggregate °C', of: (row) => row.aggregateC },
  { head: 'Mix °C', of: (row) => row.mixC },
  { head: 'Full fan, % LEL', of: (row) => row.lelPct },
  { head: 'Least proved flow, % LEL', of: (row) => row.leastFanLelPct },
  { head: 'Vapour pressure doubles every K', of: (row) => row.doublesK },
];
const STEP_K = 10;

export function AggregateLesson({ figures }: { readonly figures: LessonFigures }) {
  const { limits, mix } = figures;
  const [aggregateC, setAggregateC] = useState(mix.windows.drawAtC ?? 50);
  const [binderC, setBinderC] = useState(mix.windows.tankSetC);
  const rows = useMemo(() => aggregateRows(figures, binderC), [figures, binderC]);
  const now = aggregateAt(figures, aggregateC, binderC);
  const hotter = aggregateAt(figures, aggregateC + STEP_K, binderC);
  return (
    <Lesson
      title="Ten degrees more, and the vapour doubles or worse"
      question="Stone is nineteen twentieths of the mix: its heat decides how warm the binder ends up, whatever the tank shows. Raise the aggregate and watch the vapour at the hood."
      picture={
        <Picture
          title="Aggregate temperature against vapour at the hood"
          words={`At ${aggregateC} °C the hood settles at ${shortFigure(now.lelPct)} % LEL with its fan at full flow; ten kelvin hotter at ${shortFigure(hotter.lelPct)} %.`}
          x={{
            min: AGGREGATE_FROM_C,
            max: AGGREGATE_TO_C,
            label: 'Aggregate temperature when the binder meets it, °C',
            ticks: [20, 30, 40, 50, 60, 70, 80, 90, 100, 110],
          }}
          at={aggregateC}
          bands={[
            {
              from: mix.windows.aggregateC.fromC,
              to: Math.min(mix.windows.aggregateC.toC, limits.aggregateMaxC),
              text: 'Window of the aggregate',
            },
          ]}
          uprights={[{ x: limits.aggregateMaxC, text: `Limit for cutback, ${limits.aggregateMaxC} °C` }]}
          panels={[
            {
              height: 300,
              y: {
                min: 0.01,
                max: 1000,
                log: true,
                label: 'Vapour at the hood, % LEL',
                ticks: [0.01, 0.1, 1, 100, 1000],
              },
              levels: [
                { y: 100, text: 'lower limit', tone: 'trip' },
                { y: limits.vapourTripLelPct, text: `trip, ${limits.vapourTripLelPct} % LEL`, tone: 'trip' },
                {
                  y: limits.vapourWarnLelPct,
                  text: `warning, ${limits.vapourWarnLelPct} % LEL`,
                  tone: 'warn',
                },
              ],
              series: [
                {
                  name: 'Fan at full flow',
                  style: 'main',
                  points: rows.map((row) => [row.aggregateC, row.lelPct]),
                },
                {
                  name: 'Least flow that counts as proved',
                  style: 'second',
                  points: rows.map((row) => [row.aggregateC, row.leastFanLelPct]),
                },
              ],
            },
          ]}
        />
      }
      sliders={
        <>
          <Slider
            label="Aggregate temperature"
            value={aggregateC}
            min={AGGREGATE_FROM_C}
            max={AGGREGATE_TO_C}
            step={1}
            said={`${aggregateC} °C`}
            onChange={setAggregateC}
          />
          <Slider
            label="Binder temperature"
            value={binderC}
            min={60}
            max={110}
            step={1}
            said={`${binderC} °C`}
            onChange={setBinderC}
          />
        </>
      }
      readings={[
        { label: 'Mix once they have met', value: `${now.mixC.toFixed(1)} °C` },
        { label: 'Vapour at the hood', value: `${shortFigure(now.lelPct)} % LEL` },
        {
          label: `With ${STEP_K} K more`,
          value: `${shortFigure(hotter.lelPct)} % LEL`,
          note: `${shortFigure(hotter.lelPct / now.lelPct)} times as much`,
        },
        {
          label: 'Vapour pressure alone doubles every',
          value: `${shortFigure(now.doublesK)} K`,
          note: 'a thinner film gives up its solvent faster as well',
        },
      ]}
      caution={`Cutback never meets aggregate above ${limits.aggregateMaxC} °C. Hot binder and hot stone burn skin at once: clothing, gloves and face shield.`}
      takeAway={[
        'Ten kelvin in the binder tank change the mix by about one degree; ten kelvin in the stone change it by nearly nine. Watch the stone.',
        'Vapour pressure doubles about every eleven kelvin. The binder film also thins, so the vapour at the hood grows several times as fast as that.',
        `The limit of ${limits.aggregateMaxC} °C is not where it becomes dangerous but where hood and detector still have room in hand.`,
      ]}
      sources="Heat balance of the batch and vapour pressure (Antoine, Raoult): standard physics. How fast the turning film gives up solvent is the simulated plant’s teaching model. The limit of 65 °C is common practice, no source; it lies just below 66 °C, the least flash point of MC-800 (ASTM D2027 / AASHTO M 82)."
      table={
        <FigureTable
          name="aggregate-temperature"
          rows={rows}
          shown={rows.filter((row) => row.aggregateC % 5 === 0)}
          columns={COLUMNS}
        />
      }
    />
  );
}
