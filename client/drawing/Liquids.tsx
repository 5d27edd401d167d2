/** Water and anti-strip: what their meters count and their lines to the pug mill. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import { figure, kg } from './figures.ts';
import type { Note } from './notes.ts';
import { Words } from './Words.tsx';

type Props = { readonly view: LineView; readonly note: Note | undefined };

/** While the batch is wetted its own water, else what the meter has counted in all. */
const waterWords = (view: LineView): string => {
  const wetting = view.now.waitingFor.find((line) => line.id === 'water');
  if (wetting !== undefined) return `${wetting.text.toLowerCase().replace(/ l$/, '')} of ${wetting.wanted}`;
  return `water, total ${figure(view.plant.readings.waterMeterL, 0)} L`;
};

export const Liquids = ({ view, note }: Props) => {
  const { readings, outputs } = view.plant;
  return (
    <g>
      <Words
        x={336}
        y={385}
        text={note?.short ?? waterWords(view)}
        max={148}
        anchor="end"
        level={note?.level ?? null}
      />
      <Flow
        points={[
          [350, 381],
          [430, 381],
        ]}
        moving={outputs.waterValve}
      />
      <circle cx={348} cy={381} r={6} className="pd-meter" />
      <Words
        x={336}
        y={404}
        text={`anti-strip, total ${kg(readings.antiStripMeterKg, 1)}`}
        max={148}
        anchor="end"
      />
      <Flow
        points={[
          [350, 400],
          [430, 400],
        ]}
        moving={outputs.antiStripPump}
      />
      <circle cx={348} cy={400} r={6} className="pd-meter" />
    </g>
  );
};
