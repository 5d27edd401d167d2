/** A fresh pile and a tank vent through a day and a night. */
import { useMemo, useState } from 'react';
import {
  DAY_FROM_H,
  DAY_HOURS,
  DELIVERY,
  type PileRow,
  pileAreaM2,
  pileRows,
  solventInLotKg,
  type VentRow,
  ventRows,
} from './day.data.ts';
import { type Column, FigureTable } from './FigureTable.tsx';
import type { LessonFigures } from './figures.ts';
import { Lesson } from './Lesson.tsx';
import { Picture } from './Picture.tsx';
import { shortFigure } from './picture-scale.ts';
import { Slider } from './Slider.tsx';

type Row = { readonly pile: PileRow; readonly vent: VentRow };
const COLUMNS: readonly Column<Row>[] = [
  { head: 'Hours since laid', of: ({ pile }) => pile.atS / 3600 },
  { head: 'Air °C', of: ({ pile }) => pile.airC },
  { head: 'Pile °C', of: ({ pile }) => pile.tempC },
  { head: 'Solvent leaving the pile, g/h', of: ({ pile }) => 1000 * pile.leavingKgH },
  { head: 'Lost by the pile, kg', of: ({ pile }) => pile.lostKg },
  { head: 'Behind the pile, % LEL', of: ({ pile }) => pile.behindLelPct },
  { head: 'Under a sheet, % LEL', of: ({ pile }) => pile.sheetedLelPct },
  { head: 'Tank vent, L/min', of: ({ vent }) => vent.ventLMin },
  { head: 'Head space, % LEL', of: ({ vent }) => vent.headLelPct },
  { head: 'Lost by the vent, g', of: ({ vent }) => 1000 * vent.lostKg },
];

const HOURS = {
  min: DAY_FROM_H,
  max: DAY_FROM_H + DAY_HOURS,
  label: 'Hour (24 is midnight; the pile is laid at 7)',
  ticks: [7, 10, 13, 16, 19, 22, 25, 28, 31],
} as const;

export function DayLesson({ figures }: { readonly figures: LessonFigures }) {
  const [laidC, setLaidC] = useState(52);
  const [windMS, setWindMS] = useState(1);
  const [binderC, setBinderC] = useState(figures.mix.windows.tankSetC);
  const piles = useMemo(() => pileRows(figures, laidC, windMS), [figures, laidC, windMS]);
  const vents = useMemo(() => ventRows(figures, binderC, true), [figures, binderC]);
  const rows = piles.flatMap((pile, i): Row[] => {
    const vent = vents[i];
    return vent === undefined ? [] : [{ pile, vent }];
  });
  const first = piles[0];
  const last = piles.at(-1);
  const filling = vents.find((row) => row.hour >= DELIVERY.fromH + 0.5);
  const ventLost = vents.at(-1)?.lostKg ?? 0;
  const head = vents[0]?.headLelPct ?? 0;
  return (
    <Lesson
      title="A fresh pile and a tank vent through a day"
      question={`A lot of ${shortFigure(figures.mix.lotKg / 1000)} t lies in its bay from seven in the morning; beside it the cutback tank breathes through its vent, and takes a delivery of ${shortFigure(DELIVERY.kg / 1000)} t between ten and eleven. Where is vapour, and when?`}
      picture={
        <>
          <Picture
            title="The pile: temperature and solvent leaving it"
            words={`The pile cools from ${laidC} °C and gives off ${shortFigure(1000 * (first?.leavingKgH ?? 0))} g of solvent an hour at first, ${shortFigure(1000 * (last?.leavingKgH ?? 0))} g a day later.`}
            x={HOURS}
            panels={[
              {
                height: 110,
                y: { min: 0, max: 80, label: 'Temperature, °C', ticks: [0, 20, 40, 60, 80] },
                series: [
                  { name: 'Pile', style: 'main', points: piles.map((row) => [row.hour, row.tempC]) },
                  { name: 'Air', style: 'second', points: piles.map((row) => [row.hour, row.airC]) },
                ],
              },
              {
                height: 110,
                y: {
                  min: 1,
                  max: 5000,
                  log: true,
                  label: 'Solvent leaving it, g/h',
                  ticks: [1, 10, 100, 1000],
                },
                series: [
                  {
                    name: 'Leaving the pile',
                    style: 'third',
                    points: piles.map((row) => [row.hour, 1000 * row.leavingKgH]),
                  },
                ],
              },
            ]}
          />
          <Picture
            title="The tank: gas out of its vent"
            words={`The vent gives off well under a litre a minute while the air warms, nothing while it cools, and ${shortFigure(filling?.ventLMin ?? 0)} L a minute during the delivery.`}
            x={HOURS}
            bands={[{ from: DELIVERY.fromH, to: DELIVERY.fromH + DELIVERY.hours, text: 'Delivery' }]}
            panels={[
              {
                height: 110,
                y: { min: 0, max: 80, label: 'Gas leaving by the vent, L/min', ticks: [0, 20, 40, 60, 80] },
                series: [
                  { name: 'Vent', style: 'main', points: vents.map((row) => [row.hour, row.ventLMin]) },
                ],
              },
            ]}
          />
        </>
      }
      sliders={
        <>
          <Slider
            label="Pile laid at"
            value={laidC}
            min={30}
            max={75}
            step={1}
            said={`${laidC} °C`}
            onChange={setLaidC}
          />
          <Slider
            label="Wind over it"
            value={windMS}
            min={0}
            max={8}
            step={0.5}
            said={windMS === 0 ? 'calm' : `${windMS.toFixed(1)} m/s`}
            onChange={setWindMS}
          />
          <Slider
            label="Binder in the tank"
            value={binderC}
            min={40}
            max={110}
            step={1}
            said={`${binderC} °C`}
            onChange={setBinderC}
          />
        </>
      }
      readings={[
        {
          label: 'Leaving the pile at first, and a day later',
          value: `${shortFigure(1000 * (first?.leavingKgH ?? 0))} g/h`,
          note: `then ${shortFigure(1000 * (last?.leavingKgH ?? 0))} g/h; ${shortFigure(last?.lostKg ?? 0)} kg of its ${shortFigure(solventInLotKg(figures))} kg gone, from ${pileAreaM2(figures).toFixed(0)} m² of skin`,
        },
        {
          label: 'Just behind the pile, in the open',
          value: `${shortFigure(first?.behindLelPct ?? 0)} % LEL`,
        },
        {
          label: 'Under a sheet or in a closed box',
          value: `${shortFigure(first?.sheetedLelPct ?? 0)} % LEL`,
          note: 'what stands still over it once it is saturated',
        },
        {
          label: 'In the head space of the tank',
          value: `${shortFigure(head)} % LEL`,
          note: head >= 100 ? 'burnable: a spark at the vent lights it' : 'below its lower limit',
        },
        {
          label: 'Out of the vent during the delivery',
          value: `${shortFigure(filling?.ventLMin ?? 0)} L/min`,
          note: `${shortFigure(1000 * ventLost)} g of solvent in all over the day`,
        },
      ]}
      caution="No flame or smoking near a fresh pile or a tank vent, least of all during a delivery: then the vent pours out what the head space holds. Never sheet or box hot mix, and never lean into a tank."
      takeAway={[
        'A fresh pile gives off most in its first hour, while it is warm and its skin is wet. In the open air that is little; under a sheet it gathers.',
        'A hot tank’s head space stands in its explosive range all day. It breathes little by itself; a delivery pushes out as much gas as binder comes in.',
        'That is why heating stops and hot work is refused while a delivery is under way.',
      ]}
      sources="Newton’s cooling, Raoult’s law, gas that expands with its temperature, displacement by filling: standard physics. Mass transfer by Mackay and Matsugu (1973), diffusion by Fuller, both from memory. The drying skin of the pile, its heat loss, the temperature of the head space and its steady size are a teaching model: believe the shapes, not the last digit. The delivery is invented for this lesson."
      table={
        <FigureTable
          name="pile-and-vent"
          rows={rows}
          shown={rows.filter((_, i) => i % 8 === 0)}
          columns={COLUMNS}
        />
      }
    />
  );
}
