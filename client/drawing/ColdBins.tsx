/** The cold bins over their collecting belt: level, moisture and which gate feeds. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import { percent } from './figures.ts';
import { binBox } from './items.ts';
import type { Notes } from './notes.ts';
import { wrap } from './text.ts';
import { Valve } from './Valve.tsx';
import { LABEL_PX, Words } from './Words.tsx';

/** Names of bins may be a little wider than their bin and take a second line upward. */
const NAME_OVER_PX = 6;
const NAME_LINE_PX = 13;
const NAME_OVER_BIN_PX = 6;
const BELT_Y = 132;
const BELT_END_X = 345;

const gatesOf = (view: LineView) => [
  view.plant.outputs.bin1Gate,
  view.plant.outputs.bin2Gate,
  view.plant.outputs.bin3Gate,
  view.plant.outputs.bin4Gate,
];

type BinProps = {
  readonly view: LineView;
  readonly index: number;
  readonly count: number;
  readonly notes: Notes;
};

const ColdBin = ({ view, index, count, notes }: BinProps) => {
  const bin = view.plant.bins[index];
  if (bin === undefined) return null;
  const { x, y, w, h } = binBox(index, count);
  const cone = 20;
  const throat = 9;
  const mid = x + w / 2;
  const note = notes[`bin${(index + 1) as 1 | 2 | 3 | 4}`]?.[0];
  const gate = gatesOf(view)[index] ?? 'shut';
  const outline = `M${x} ${y}V${y + h - cone}L${mid - throat} ${y + h}H${mid + throat}L${x + w} ${y + h - cone}V${y}`;
  const fillTop = y + h - cone - (h - cone - 2) * Math.min(1, Math.max(0, bin.levelPct / 100));
  const fill = `M${x + 1} ${fillTop}V${y + h - cone}L${mid - throat} ${y + h - 1}H${mid + throat}L${x + w - 1} ${y + h - cone}V${fillTop}Z`;
  const names = wrap(bin.name, w + NAME_OVER_PX, LABEL_PX, 2);
  const dropX = mid - (w > 70 ? 26 : 23);
  return (
    <g>
      <path d={fill} className="pd-fill" />
      <path d={outline} className="pd-outline" />
      {names.map((name, line) => (
        <Words
          key={name}
          x={mid}
          y={y - NAME_OVER_BIN_PX - NAME_LINE_PX * (names.length - 1 - line)}
          text={name}
          max={w + NAME_OVER_PX}
          anchor="middle"
          kind="name"
        />
      ))}
      <Words
        x={mid}
        y={y + 32}
        text={note?.short ?? percent(bin.levelPct)}
        max={w}
        kind={note === undefined ? 'value' : 'name'}
        anchor="middle"
        level={note?.level ?? null}
      />
      <path d={`M${dropX} ${y + 41}q-5 6 0 9q5 -3 0 -9Z`} className="pd-drop" />
      <Words x={dropX + 7} y={y + 51} text={percent(bin.moisturePct, 1)} max={w - 14} kind="name" />
      <Flow
        points={[
          [mid, y + h + 13],
          [mid, BELT_Y - 3],
        ]}
        moving={gate !== 'shut'}
        bare
      />
      <Valve x={mid} y={y + h + 7} isOpen={gate !== 'shut'} size={7} upright />
    </g>
  );
};

type Props = { readonly view: LineView; readonly notes: Notes };

export const ColdBins = ({ view, notes }: Props) => {
  const count = Math.min(4, view.plant.bins.length);
  const feeds = gatesOf(view).some((gate) => gate !== 'shut');
  return (
    <g>
      {view.plant.bins.slice(0, 4).map((bin, index) => (
        <ColdBin key={bin.name} view={view} index={index} count={count} notes={notes} />
      ))}
      <path d={`M14 ${BELT_Y}H${BELT_END_X - 8}`} className="pd-belt" />
      {feeds && <path d={`M14 ${BELT_Y}H${BELT_END_X - 8}`} className="pd-flow-ticks" />}
      <circle cx={14} cy={BELT_Y} r={4} className="pd-roller" />
      <circle cx={BELT_END_X - 8} cy={BELT_Y} r={4} className="pd-roller" />
    </g>
  );
};
