/** Solvent given off against air drawn, and how long there is once the hood fan is lost. */
import { useMemo, useState } from 'react';
import { spokenDuration } from '../format/format.ts';
import { type Column, FigureTable } from './FigureTable.tsx';
import type { LessonFigures } from './figures.ts';
import { afterLoss, secondsToLel, settledAt, sourceOf } from './hood.data.ts';
import { Lesson } from './Lesson.tsx';
import { Picture } from './Picture.tsx';
import { shortFigure } from './picture-scale.ts';
import { Slider } from './Slider.tsx';

const MINUTES = 10;
type Row = { readonly minutes: number; readonly lelPct: number };
const COLUMNS: readonly Column<Row>[] = [
  { head: 'Minutes after the loss', of: (row) => row.minutes },
  { head: 'Vapour, % LEL', of: (row) => row.lelPct },
];

const timeWords = (seconds: number | null): string =>
  seconds === null ? 'never' : seconds === 0 ? 'there before' : spokenDuration(Math.max(1, seconds));

export function HoodLesson({ figures }: { readonly figures: LessonFigures }) {
  const { hood, limits, mix } = figures;
  const [fanM3S, setFanM3S] = useState(hood.fanM3S);
  const [aggregateC, setAggregateC] = useState(mix.windows.drawAtC ?? 50);
  const source = useMemo(
    () => sourceOf(figures, aggregateC, mix.windows.tankSetC),
    [figures, aggregateC, mix.windows.tankSetC],
  );
  const flows = useMemo(
    () => Array.from({ length: 60 }, (_, i) => settledAt(figures, source, (hood.fanM3S * (i + 1)) / 50)),
    [figures, source, hood.fanM3S],
  );
  const rows = useMemo(
    () =>
      Array.from({ length: MINUTES * 20 + 1 }, (_, i): Row => {
        const minutes = i / 20;
        return { minutes, lelPct: afterLoss(figures, source, fanM3S, minutes * 60) };
      }),
    [figures, source, fanM3S],
  );
  const now = settledAt(figures, source, fanM3S);
  const until = (lelPct: number) => timeWords(secondsToLel(figures, source, fanM3S, lelPct));
  const levels = [
    { y: 100, text: 'lower limit', tone: 'trip' },
    { y: limits.vapourTripLelPct, text: `trip, ${limits.vapourTripLelPct} % LEL`, tone: 'trip' },
    { y: limits.vapourWarnLelPct, text: `warning, ${limits.vapourWarnLelPct} % LEL`, tone: 'warn' },
  ] as const;
  const y = { min: 0.5, max: 500, log: true, ticks: [1, 10, 100] } as const;
  return (
    <Lesson
      title="The hood fan lost: how long is there?"
      question={`A full batch of cutback mix turns in the pug mill. The hood holds ${shortFigure(hood.volumeM3)} m³ and its fan draws ${shortFigure(hood.fanM3S)} m³/s. Set how much air is drawn and how hot the aggregate was; then imagine the fan stops now.`}
      picture={
        <>
          <Picture
            title="After the fan has stopped"
            words={`From ${shortFigure(now.lelPct)} % LEL the vapour rises to ${shortFigure(rows.at(-1)?.lelPct ?? 0)} % LEL within ${MINUTES} minutes.`}
            x={{ min: 0, max: MINUTES, label: 'Minutes after the fan was lost', ticks: [0, 2, 4, 6, 8, 10] }}
            panels={[
              {
                y: { ...y, label: 'Vapour under the hood, % LEL' },
                levels,
                series: [
                  { name: 'Vapour', style: 'main', points: rows.map((row) => [row.minutes, row.lelPct]) },
                ],
              },
            ]}
          />
          <Picture
            title="While the fan runs: air drawn against vapour"
            words={`With ${shortFigure(fanM3S)} m³/s drawn the hood settles at ${shortFigure(now.lelPct)} % LEL.`}
            x={{
              min: 0,
              max: Math.ceil(hood.fanM3S * 12) / 10,
              label: 'Air drawn, m³/s',
              ticks: [0, 0.5, 1, 1.5, 2].filter((tick) => tick <= hood.fanM3S * 1.2),
            }}
            at={fanM3S}
            uprights={[
              { x: hood.provedM3S, text: `Counts as proved from ${shortFigure(hood.provedM3S)} m³/s` },
            ]}
            panels={[
              {
                height: 140,
                y: { ...y, label: 'Vapour it settles at, % LEL' },
                levels: levels.slice(1),
                series: [
                  { name: 'Settled', style: 'main', points: flows.map((row) => [row.fanM3S, row.lelPct]) },
                ],
              },
            ]}
          />
        </>
      }
      sliders={
        <>
          <Slider
            label="Air drawn before the loss"
            value={fanM3S}
            min={0.05}
            max={Math.ceil(hood.fanM3S * 12) / 10}
            step={0.05}
            said={`${fanM3S.toFixed(2)} m³/s`}
            onChange={setFanM3S}
          />
          <Slider
            label="Aggregate when the binder met it"
            value={aggregateC}
            min={25}
            max={90}
            step={1}
            said={`${aggregateC} °C`}
            onChange={setAggregateC}
          />
        </>
      }
      readings={[
        {
          label: 'While the fan runs',
          value: `${shortFigure(now.lelPct)} % LEL`,
          note: `${shortFigure(now.gPerMin)} g of solvent a minute drawn off; mix at ${source.mixC.toFixed(0)} °C`,
        },
        { label: `To the warning, ${limits.vapourWarnLelPct} % LEL`, value: until(limits.vapourWarnLelPct) },
        { label: `To the trip, ${limits.vapourTripLelPct} % LEL`, value: until(limits.vapourTripLelPct) },
        { label: 'To the lower limit, 100 % LEL', value: until(100) },
      ]}
      caution="The detector lags by some seconds and sees one place only. When the fan is lost, stay away from the mixer, bring no light or spark near it, and let the trip do its work."
      takeAway={[
        'Half the air is nearly twice the vapour: the air drawn is as much a safeguard as any valve.',
        'With an ordinary batch the trip level is less than a minute away once the fan is lost. Nobody can run there and mend it: that is why a lost fan trips at once (FT-03) and does not wait for the detector.',
        `Aggregate at ${limits.aggregateMaxC} °C instead of ${mix.windows.drawAtC ?? 50} °C takes most of that time away before anything has failed.`,
      ]}
      sources="A well-mixed space with a source, solved exactly: standard physics; vapour by Antoine and Raoult. How readily a turning batch gives up solvent (surface, film of binder) is the simulated plant’s teaching model; it takes mix temperature and solvent as steady over these minutes. Limits: 29 CFR 1910.146(b) for 10 % LEL; the pair 10/20 from memory."
      table={
        <FigureTable
          name="fan-lost"
          rows={rows}
          shown={rows.filter((_, i) => i % 10 === 0)}
          columns={COLUMNS}
        />
      }
    />
  );
}
