/** The hood over the pug mill: extraction fan and vapour against its warning and trip levels. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Fan } from './Fan.tsx';
import { Flow } from './Flow.tsx';
import { figure } from './figures.ts';
import type { Note } from './notes.ts';
import { Words } from './Words.tsx';

/** The scale ends a quarter past the trip level, so that a reading beyond it is seen to be beyond it. */
const SCALE_PAST_TRIP = 1.25;
const SCALE_X = 638;
const SCALE_W = 94;

type Props = { readonly view: LineView; readonly note: Note | undefined };

export const Hood = ({ view, note }: Props) => {
  const { readings, outputs } = view.plant;
  const isOn = readings.hoodFlowM3S > 0.05;
  const lel = readings.vapourLelPct;
  const { vapourWarnLelPct: warnPct, vapourTripLelPct: tripPct } = view.plant.limits;
  const level = lel >= tripPct ? 'trip' : lel >= warnPct ? 'warn' : null;
  const scaleX = (lelPct: number) =>
    SCALE_X + SCALE_W * Math.min(1, Math.max(0, lelPct / (tripPct * SCALE_PAST_TRIP)));
  const at = scaleX(lel);
  return (
    <g>
      <path d="M424 298L440 274H612L632 298Z" className="pd-hood" />
      <Flow
        points={[
          [622, 284],
          [676, 284],
        ]}
        moving={isOn}
        bare
      />
      <Flow
        points={[
          [687, 274],
          [687, 250],
        ]}
        moving={isOn}
      />
      <Fan x={687} y={284} r={11} isOn={isOn} />
      <Words
        x={SCALE_X}
        y={315}
        text={note?.short ?? `hood fan ${outputs.hoodFan ? 'on' : 'off'}`}
        max={100}
        level={note?.level ?? null}
      />
      <Words x={SCALE_X} y={333} text={`${figure(readings.hoodFlowM3S, 2)} m³/s`} max={100} kind="value" />
      <Words x={SCALE_X} y={356} text="vapour % LEL" max={100} />
      <Words x={SCALE_X} y={374} text={figure(lel, 1)} max={102} kind="value" level={level} />
      <rect x={SCALE_X} y={381} width={SCALE_W} height={8} rx={3} className="pd-scale" />
      <rect x={SCALE_X} y={381} width={scaleX(warnPct) - SCALE_X} height={8} rx={3} className="pd-band" />
      <path d={`M${scaleX(warnPct)} 380V392M${scaleX(tripPct)} 380V392`} className="pd-tick" />
      <path d={`M${at} 378V392`} className={level === null ? 'pd-pointer' : `pd-pointer pd-line-${level}`} />
      <Words x={scaleX(warnPct)} y={405} text={`${warnPct}`} max={24} anchor="middle" />
      <Words x={scaleX(tripPct)} y={405} text={`${tripPct}`} max={24} anchor="middle" />
    </g>
  );
};
