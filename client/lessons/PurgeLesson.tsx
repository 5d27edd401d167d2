/** What 4, 5 and 6.35 changes of air leave in a drum. */
import { useMemo, useState } from 'react';
import { spokenDuration } from '../format/format.ts';
import { type Column, FigureTable } from './FigureTable.tsx';
import type { LessonFigures } from './figures.ts';
import { Lesson } from './Lesson.tsx';
import { Picture } from './Picture.tsx';
import { shortFigure } from './picture-scale.ts';
import {
  CLEAR_LEL_PCT,
  MOST_VOLUMES,
  type PurgeRow,
  purgeAt,
  purgeRows,
  talkedOf,
  volumesToClear,
} from './purge.data.ts';
import { Slider } from './Slider.tsx';

const COLUMNS: readonly Column<PurgeRow>[] = [
  { head: 'Volumes changed', of: (row) => row.volumes },
  { head: 'Time at full fan flow, s', of: (row) => row.seconds },
  { head: 'Left of the vapour, %', of: (row) => row.leftPct },
  { head: '% LEL', of: (row) => row.lelPct },
];

const judged = (lelPct: number): string =>
  lelPct >= 100 ? 'can still burn' : lelPct > CLEAR_LEL_PCT + 0.005 ? 'not clear' : 'clear';

export function PurgeLesson({ figures }: { readonly figures: LessonFigures }) {
  const { drumVolumeM3, fanM3S, purgeVolumes } = figures.dryer;
  const [volumes, setVolumes] = useState(4);
  const [fromPct, setFromPct] = useState(100);
  const rows = useMemo(() => purgeRows(figures, fromPct), [figures, fromPct]);
  const now = purgeAt(figures, volumes, fromPct);
  const known = talkedOf(figures, fromPct);
  const needed = volumesToClear(fromPct);
  return (
    <Lesson
      title="Four volumes are not clean air"
      question={`The fan blows ${shortFigure(fanM3S)} m³/s through a drum of ${shortFigure(drumVolumeM3)} m³. Fresh air mixes with what is there, so each volume carries off only part of it. How many volumes clear a drum that was full of vapour?`}
      picture={
        <Picture
          title="Vapour left in the drum"
          words={`The vapour falls by a factor of e, about 2.7, with each volume changed. Starting at ${fromPct} vol %, it is clear after ${needed.toFixed(2)} volumes.`}
          x={{
            min: 0,
            max: MOST_VOLUMES,
            label: 'Volumes of air changed',
            ticks: [0, 1, 2, 3, 4, 5, 6, 7, 8],
          }}
          at={volumes}
          uprights={known.map((row, i) => ({
            x: row.volumes,
            text:
              ['4: NFPA 86, at least', '5: EN 746-2 type text, in general', '6.35: full drum to 25 % LEL'][
                i
              ] ?? '',
          }))}
          panels={[
            {
              height: 300,
              y: {
                min: 1,
                max: 20_000,
                log: true,
                label: 'Vapour left, % of the lower limit (LEL)',
                ticks: [1, 10, 1000, 10_000],
              },
              levels: [
                { y: 100, text: 'lower limit: can burn above', tone: 'trip', side: 'left' },
                { y: CLEAR_LEL_PCT, text: '25 % LEL: counts as clear', tone: 'warn', side: 'left' },
              ],
              series: [
                {
                  name: 'Vapour left: e to the power −N',
                  style: 'main',
                  points: rows.map((row) => [row.volumes, row.lelPct]),
                },
              ],
            },
          ]}
        />
      }
      sliders={
        <>
          <Slider
            label="Volumes changed"
            value={volumes}
            min={0}
            max={MOST_VOLUMES}
            step={0.05}
            said={`${volumes.toFixed(2)} volumes`}
            onChange={setVolumes}
          />
          <Slider
            label="Vapour in the drum at first"
            value={fromPct}
            min={1}
            max={100}
            step={1}
            said={`${fromPct} vol %`}
            onChange={setFromPct}
          />
        </>
      }
      readings={[
        {
          label: `After ${volumes.toFixed(2)} volumes`,
          value: `${shortFigure(now.lelPct)} % LEL`,
          note: `${judged(now.lelPct)}; ${shortFigure(now.leftPct)} % of it left, ${spokenDuration(now.seconds)} at full flow`,
        },
        ...known.map((row) => ({
          label: `${shortFigure(row.volumes)} volumes leave`,
          value: `${shortFigure(row.lelPct)} % LEL`,
          note: judged(row.lelPct),
        })),
        {
          label: 'Clear after',
          value: `${needed.toFixed(2)} volumes`,
          note: `this plant asks for ${shortFigure(purgeVolumes)}`,
        },
      ]}
      caution="A purge rule assumes that fuel never ran in with the flame out. After a failed light-up or a leaking fuel valve a drum can hold far more than the rule is made for: find out why before you purge and light again."
      takeAway={[
        'Perfect mixing leaves e to the power −N: 1.83 % after 4 volumes, 0.67 % after 5. A real drum with dead corners leaves more.',
        'A drum full of vapour is 143 times its lower limit. 4 volumes bring it to 262 % LEL and 5 to 96 %: it takes 6.35 to come to 25 %.',
        'Four or five are enough because the burner never lets the drum fill: a lost flame shuts the fuel within seconds. That is why the flame-failure time and the purge belong together.',
        'Count volumes at the flow measured, not minutes: half the flow needs twice the time.',
      ]}
      sources="Washing-out of a well-mixed space: standard physics. At least 4 changes: NFPA 86. In general 5, and below 25 % of the lower limit with the chamber taken as full: EN 746-2 type text. Lower limit of kerosene, 0.7 vol %: NIOSH Pocket Guide."
      table={
        <FigureTable
          name="purge"
          rows={rows}
          shown={[...rows.filter((_, i) => i % 10 === 0), ...known.slice(2)].sort(
            (a, b) => a.volumes - b.volumes,
          )}
          columns={COLUMNS}
        />
      }
    />
  );
}
