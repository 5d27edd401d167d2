/** An upright scale with the wanted window as a band and a pointer at the reading. */
import { figure } from './figures.ts';
import { Words } from './Words.tsx';

type Props = {
  readonly x: number;
  readonly y: number;
  readonly h: number;
  readonly value: number;
  readonly scale: readonly [number, number];
  readonly from: number | null;
  readonly to: number | null;
  readonly isOut: boolean;
};

const WIDTH_PX = 9;
const LABEL_APART_PX = 13;

/** Position of a value on an upright scale, clamped to its ends. */
export const gaugeY = (value: number, scale: readonly [number, number], y: number, h: number): number => {
  const share = (value - scale[0]) / (scale[1] - scale[0] || 1);
  return y + h * (1 - Math.min(1, Math.max(0, share)));
};

export const Gauge = ({ x, y, h, value, scale, from, to, isOut }: Props) => {
  const at = gaugeY(value, scale, y, h);
  const top = gaugeY(to ?? scale[1], scale, y, h);
  const bottom = gaugeY(from ?? scale[0], scale, y, h);
  const hasBand = from !== null || to !== null;
  const lowLabelY = Math.max(bottom + 4, top + 4 + LABEL_APART_PX);
  return (
    <g>
      <rect x={x} y={y} width={WIDTH_PX} height={h} rx={3} className="pd-scale" />
      {hasBand && (
        <rect x={x} y={top} width={WIDTH_PX} height={Math.max(2, bottom - top)} className="pd-band" />
      )}
      <path
        d={`M${x - 3} ${at}H${x + WIDTH_PX + 3}`}
        className={isOut ? 'pd-pointer pd-line-warn' : 'pd-pointer'}
      />
      {to !== null && <Words x={x + WIDTH_PX + 5} y={top + 4} text={figure(to, 0)} max={26} />}
      {from !== null && <Words x={x + WIDTH_PX + 5} y={lowLabelY} text={figure(from, 0)} max={26} />}
    </g>
  );
};
