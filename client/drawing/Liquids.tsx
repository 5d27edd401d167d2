/** Water and anti-strip: what their meters count and their lines to the pug mill. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import { figure, kg } from './figures.ts';
import type { Note } from './notes.ts';
import { Words } from './Words.tsx';

type Props = { readonly view: LineView; readonly note: Note | undefined };

/** While the batch is wetted its own water, else nothing: meters count on from batch to batch. */
const wettingWords = (view: LineView): string | null => {
  const wetting = view.now.waitingFor.find((line) => line.id === 'water');
  return wetting === undefined
    ? null
    : `${wetting.text.replace(/^W/, 'w').replace(/ L$/, '')} of ${wetting.wanted}`;
};

export const Liquids = ({ view, note }: Props) => {
  const { readings, outputs } = view.plant;
  const wetting = wettingWords(view);
  return (
    <g>
      <Words
        x={336}
        y={385}
        text={note?.short ?? wetting ?? `water ${figure(readings.waterMeterL, 1)} L`}
        max={134}
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
      <Words x={336} y={404} text={`anti-strip ${kg(readings.antiStripMeterKg, 2)}`} max={134} anchor="end" />
      <Flow
        points={[
          [350, 400],
          [430, 400],
        ]}
        moving={outputs.antiStripPump}
      />
      <circle cx={348} cy={400} r={6} className="pd-meter" />
      <Words x={336} y={420} text={wetting === null ? 'metered in all' : 'metered'} max={134} anchor="end" />
    </g>
  );
};
