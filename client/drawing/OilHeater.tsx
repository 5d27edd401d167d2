/** The thermal-oil heater and its loop to the coils of both tanks. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flame } from './Flame.tsx';
import { Flow } from './Flow.tsx';
import { celsius } from './figures.ts';
import type { Note } from './notes.ts';
import { Words } from './Words.tsx';

type Props = {
  readonly view: LineView;
  readonly note: Note | undefined;
  readonly coilYs: readonly [number, number];
};

export const OilHeater = ({ view, note, coilYs }: Props) => {
  const { readings, outputs } = view.plant;
  const flows = readings.oilFlowing === 1;
  const isLit = readings.oilFlameSeen === 1;
  return (
    <g>
      <Flow
        points={[
          [20, 512],
          [6, 512],
          [6, coilYs[1]],
        ]}
        moving={flows && (outputs.cutbackCoil || outputs.emulsionCoil)}
        bare
      />
      <Flow
        points={[
          [6, coilYs[1]],
          [6, coilYs[0]],
        ]}
        moving={flows && outputs.emulsionCoil}
        bare
      />
      <Words x={20} y={482} text="thermal-oil heater" max={160} kind="name" />
      <rect
        x={20}
        y={490}
        width={118}
        height={42}
        rx={6}
        className={outputs.oilPump ? 'pd-shell pd-shell-on' : 'pd-shell'}
      />
      {isLit ? <Flame x={38} y={518} size={18} /> : <circle cx={38} cy={511} r={7} className="pd-burner" />}
      <Words x={54} y={516} text={celsius(readings.oilC)} max={80} kind="value" />
      <Words
        x={20}
        y={550}
        text={note?.short ?? `${isLit ? 'flame' : 'no flame'} · ${flows ? 'oil flows' : 'oil still'}`}
        max={172}
        level={note?.level ?? null}
      />
    </g>
  );
};
