/** The aggregate weigh hopper and the two ways out of it. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import type { Family } from './family.ts';
import { kg } from './figures.ts';
import { type Note, weightOf } from './notes.ts';
import { Words } from './Words.tsx';

const TOP_Y = 150;
const BOTTOM_Y = 196;
const MID_X = 345;

const DEFAULT_CAPACITY_KG = 1000;

type Props = { readonly view: LineView; readonly note: Note | undefined; readonly family: Family | null };

export const WeighHopper = ({ view, note, family }: Props) => {
  const weight = weightOf(view, /hopper|aggregate/i);
  const massKg = view.plant.readings.hopperKg;
  const share = Math.min(1, Math.max(0, massKg / (weight?.capacityKg ?? DEFAULT_CAPACITY_KG)));
  const fillTop = BOTTOM_Y - 1 - (BOTTOM_Y - TOP_Y - 4) * share;
  const halfAt = (y: number) => 46 - 20 * ((y - TOP_Y) / (BOTTOM_Y - TOP_Y));
  const isOut = weight !== undefined && weight.standing === 'alarm';
  const to = view.plant.outputs.hopperTo;
  const byDryer = (
    <Flow
      key="dryer"
      points={[
        [MID_X, BOTTOM_Y],
        [MID_X, 214],
        [398, 214],
        [398, 60],
        [456, 60],
        [456, 82],
      ]}
      inUse={family === 'cutback'}
      moving={to === 'dryer'}
    />
  );
  const straight = (
    <Flow
      key="straight"
      points={[
        [MID_X, BOTTOM_Y],
        [MID_X, 240],
        [468, 240],
        [468, 270],
      ]}
      inUse={family === 'emulsion'}
      moving={to === 'mixer'}
    />
  );
  return (
    <g>
      {to === 'dryer' ? [straight, byDryer] : [byDryer, straight]}
      <Flow
        points={[
          [MID_X, 132],
          [MID_X, TOP_Y - 1],
        ]}
      />
      <path
        d={`M${MID_X - halfAt(fillTop) + 1} ${fillTop}L${MID_X - 25} ${BOTTOM_Y}H${MID_X + 25}L${MID_X + halfAt(fillTop) - 1} ${fillTop}Z`}
        className="pd-fill"
      />
      <path
        d={`M${MID_X - 46} ${TOP_Y}L${MID_X - 26} ${BOTTOM_Y}H${MID_X + 26}L${MID_X + 46} ${TOP_Y}`}
        className="pd-outline"
      />
      <Words x={MID_X} y={178} text={kg(massKg)} max={64} kind="value" anchor="middle" />
      <Words x={292} y={164} text="weigh hopper" max={270} anchor="end" kind="name" />
      <Words
        x={292}
        y={181}
        text={weight?.targetKg == null ? '' : `of ${kg(weight.targetKg)}`}
        max={270}
        anchor="end"
      />
      <Words
        x={292}
        y={weight?.targetKg == null ? 181 : 198}
        text={note?.short ?? weight?.text ?? ''}
        max={274}
        anchor="end"
        level={note?.level ?? (isOut ? 'warn' : null)}
      />
    </g>
  );
};
