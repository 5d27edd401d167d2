/** Why the working window of a cutback lies above its flash point, and what keeps it safe. */
import { useMemo, useState } from 'react';
import { cutFlashC, cutOf } from '../../machines/mix/solvent-cut.ts';
import { formatC, formatWindow } from '../format/format.ts';
import {
  BINDER_FROM_C,
  BINDER_TO_C,
  type BinderRow,
  binderAt,
  binderRows,
  openGPerMin,
  vapourWords,
} from './binder.data.ts';
import { type Column, FigureTable } from './FigureTable.tsx';
import type { LessonFigures } from './figures.ts';
import { Lesson } from './Lesson.tsx';
import { Picture } from './Picture.tsx';
import { shortFigure } from './picture-scale.ts';
import { Slider } from './Slider.tsx';

const COLUMNS: readonly Column<BinderRow>[] = [
  { head: 'Binder °C', of: (row) => row.tempC },
  { head: 'Viscosity mm²/s', of: (row) => row.mm2S },
  { head: 'Solvent alone, % LEL', of: (row) => row.solventLelPct },
  { head: 'Over the binder, % LEL', of: (row) => row.binderLelPct },
  { head: 'Upper limit, % LEL', of: (row) => row.upperPct },
];

const cutWords = (heaviness: number): string => {
  const { decane, dodecane } = cutOf(heaviness);
  if (decane > 0.01) return `${Math.round(100 * decane)} % lighter`;
  return dodecane > 0.01 ? `${Math.round(100 * dodecane)} % heavier` : 'as kerosene';
};

export function BinderLesson({ figures }: { readonly figures: LessonFigures }) {
  const { binderC } = figures.mix.windows;
  const flashC = figures.mix.binder.flashC ?? 66;
  const [tempC, setTempC] = useState(figures.mix.windows.tankSetC);
  const [heaviness, setHeaviness] = useState(0);
  const rows = useMemo(() => binderRows(figures, heaviness), [figures, heaviness]);
  const now = binderAt(figures, tempC, heaviness);
  const cutC = cutFlashC(cutOf(heaviness));
  const inWindow = tempC >= binderC.fromC && tempC <= binderC.toC;
  const upper = rows[0]?.upperPct ?? 720;
  return (
    <Lesson
      title="Thin enough to coat, hot enough to burn"
      question="A cutback must be thin to coat stone, and only heat makes it thin. The same heat drives vapour out of it. Move the temperature and watch both."
      picture={
        <Picture
          title="Viscosity and saturated vapour of the binder"
          words={`Viscosity falls and vapour rises with temperature. The mixing window, ${formatWindow(binderC.fromC, binderC.toC)}, lies above the flash point of ${flashC} °C: there the still vapour is between its lower and its upper limit.`}
          x={{
            min: BINDER_FROM_C,
            max: BINDER_TO_C,
            label: 'Binder temperature, °C',
            ticks: [40, 50, 60, 70, 80, 90, 100, 110, 120],
          }}
          at={tempC}
          bands={[{ ...{ from: binderC.fromC, to: binderC.toC }, text: 'Mixing window of this mix' }]}
          uprights={[{ x: flashC, text: `Flash point, at least ${flashC} °C` }]}
          panels={[
            {
              y: {
                min: 20,
                max: 20_000,
                log: true,
                label: 'Viscosity, mm²/s',
                ticks: [20, 100, 1000, 10_000],
              },
              series: [
                { name: 'Viscosity', style: 'third', points: rows.map((row) => [row.tempC, row.mm2S]) },
              ],
            },
            {
              height: 210,
              y: {
                min: 10,
                max: 3000,
                log: true,
                label: 'Vapour standing over it, % of the lower limit (LEL)',
                ticks: [10, 100, 1000],
              },
              levels: [
                { y: 100, text: 'lower limit: can burn from here', tone: 'trip', side: 'right' },
                { y: upper, text: 'upper limit', tone: 'plain', side: 'left' },
              ],
              series: [
                {
                  name: 'Solvent alone',
                  style: 'main',
                  points: rows.map((row) => [row.tempC, row.solventLelPct]),
                },
                {
                  name: 'Held back by the bitumen',
                  style: 'second',
                  points: rows.map((row) => [row.tempC, row.binderLelPct]),
                },
              ],
            },
          ]}
        />
      }
      sliders={
        <>
          <Slider
            label="Binder temperature"
            value={tempC}
            min={BINDER_FROM_C}
            max={BINDER_TO_C}
            step={1}
            said={`${tempC} °C`}
            onChange={setTempC}
          />
          <Slider
            label="Solvent in it"
            value={heaviness}
            min={-1}
            max={1}
            step={0.1}
            said={cutWords(heaviness)}
            onChange={setHeaviness}
          />
        </>
      }
      readings={[
        {
          label: 'Viscosity',
          value: `${shortFigure(now.mm2S)} mm²/s`,
          note: inWindow
            ? 'inside the mixing window'
            : tempC < binderC.fromC
              ? 'too thick: it will not coat'
              : 'too hot: it loses solvent for nothing',
        },
        {
          label: 'Solvent alone',
          value: `${shortFigure(now.solventLelPct)} % LEL`,
          note: vapourWords(now),
        },
        { label: 'Held back by the bitumen', value: `${shortFigure(now.binderLelPct)} % LEL` },
        {
          label: 'Leaving a square metre of it spilt, in a light wind',
          value: `${shortFigure(openGPerMin(figures, tempC, 1))} g/min`,
          note: 'at the most: a skin soon slows it',
        },
        {
          label: 'This solvent alone reaches its limit at',
          value: formatC(cutC),
          note: cutC < flashC - 5 ? 'lower than the grade allows: send it back' : 'by its vapour pressure',
        },
        {
          label: 'Above its least flash point by',
          value: tempC >= flashC ? formatC(tempC - flashC).replace('°C', 'K') : 'not above it',
        },
      ]}
      caution="Above its flash point the binder makes a burnable vapour wherever it stands still: in the tank, in the bucket, under a stopped hood. No flame, no smoking, no sparks there."
      takeAway={[
        `Below ${binderC.fromC} °C this binder is too thick to coat; its flash point may be as low as ${flashC} °C. There is no temperature at which it both coats and cannot burn.`,
        'So temperature alone can never make it safe. Two things do: air drawn through, which keeps the vapour at a few per cent of its limit (never let it stand), and no flame anywhere near, which is what the interlock holds.',
        'The flash point of a grade is a least value: a delivery may flash higher, never count on it. Light solvent brings it down: a quarter of decane by about five kelvin.',
      ]}
      sources="Viscosity: ASTM D341 through the two points of the mix file. Vapour: Antoine for undecane standing for kerosene (surrogate), Raoult’s law, limits of the NIOSH Pocket Guide lowered by Burgess–Wheeler; lighter and heavier with decane and dodecane, mixed limits by Le Chatelier: standard physics. Spilt binder: Mackay and Matsugu (1973), from memory. Flash: ASTM D2027 / AASHTO M 82. The mean molar mass of the bitumen is from memory."
      table={
        <FigureTable
          name="binder-temperature"
          rows={rows}
          shown={rows.filter((row) => row.tempC % 5 === 0)}
          columns={COLUMNS}
        />
      }
    />
  );
}
