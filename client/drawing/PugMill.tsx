/** The pug mill: what is in it, how hard its motor works, how warm the mix is. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import { celsius, figure } from './figures.ts';
import type { Note } from './notes.ts';
import { wrap } from './text.ts';
import { VALUE_PX, Words } from './Words.tsx';

const X = 430;
const Y = 298;
const W = 196;
const H = 108;

const Paddle = ({ x, y, isOn, way }: { x: number; y: number; isOn: boolean; way: 1 | -1 }) => (
  <g transform={`translate(${x} ${y})`}>
    <circle r={10.5} className={isOn ? 'pd-shell pd-shell-on' : 'pd-shell'} />
    <path
      d="M-7 0H7M0 -7V7"
      className={`pd-paddle${isOn ? ` pd-paddle-on pd-turn${way === 1 ? '' : ' pd-turn-back'}` : ''}`}
    />
  </g>
);

type Props = { readonly view: LineView; readonly note: Note | undefined };

export const PugMill = ({ view, note }: Props) => {
  const { readings, outputs, mixerText } = view.plant;
  const lines = wrap(mixerText, W - 24, VALUE_PX, note === undefined ? 3 : 2, true);
  return (
    <g>
      <path
        d={`M${X} ${Y}V${Y + H - 14}Q${X} ${Y + H} ${X + 14} ${Y + H}H${X + W - 14}Q${X + W} ${Y + H} ${X + W} ${Y + H - 14}V${Y}Z`}
        className={outputs.pugMill ? 'pd-shell pd-shell-on' : 'pd-shell'}
      />
      <Words x={X + 12} y={Y + 22} text="pug mill" max={100} kind="name" />
      <Paddle x={X + W - 50} y={Y + 18} isOn={outputs.pugMill} way={1} />
      <Paddle x={X + W - 22} y={Y + 18} isOn={outputs.pugMill} way={-1} />
      {lines.map((line, index) => (
        <Words
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity but their place
          key={index}
          x={X + 12}
          y={Y + 46 + 17 * index}
          text={line}
          max={W - 22}
          kind="value"
        />
      ))}
      {note !== undefined && (
        <Words x={X + 12} y={Y + 80} text={note.short} max={W - 24} level={note.level} />
      )}
      <Words
        x={X + 12}
        y={Y + H - 11}
        text={`mix ${celsius(readings.mixC)} · ${figure(readings.mixerMotorA, 1)} A`}
        max={W - 22}
        kind="name"
      />
      <Flow
        points={[
          [528, Y + H],
          [528, 427],
        ]}
        inUse
        moving={outputs.mixerGate}
      />
    </g>
  );
};
