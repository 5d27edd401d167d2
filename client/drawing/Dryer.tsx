/** The batch dryer: drum, burner with its flame when the scanner sees one, fan, and the way to the holding bin. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Fan } from './Fan.tsx';
import { Flame } from './Flame.tsx';
import { Flow } from './Flow.tsx';
import type { Family } from './family.ts';
import { celsius, figure } from './figures.ts';
import type { Note } from './notes.ts';
import { wrap } from './text.ts';
import { LABEL_PX, Words } from './Words.tsx';

const TEXT_X = 416;
const TEXT_MAX = 160;
const MOST_LINES = 4;
const LINE_PX = 15;

type Props = { readonly view: LineView; readonly note: Note | undefined; readonly family: Family | null };

export const Dryer = ({ view, note, family }: Props) => {
  const { readings, outputs, burnerText, purgeVolumes, purgeVolumesNeeded } = view.plant;
  const isLit = readings.flameSeen === 1;
  const isPurging = outputs.drumFan && !isLit && purgeVolumes < purgeVolumesNeeded;
  const volumes = `${figure(purgeVolumes, 1)} of ${figure(purgeVolumesNeeded, 0)} volumes`;
  const room = MOST_LINES - (note === undefined ? 0 : 1) - (isPurging ? 1 : 0);
  const lines = [...wrap(burnerText, TEXT_MAX, LABEL_PX, room), ...(isPurging ? [volumes] : [])];
  const isHot = isLit || outputs.drumTurn;
  return (
    <g>
      <Flow
        points={[
          [574, 112],
          [646, 112],
          [646, 126],
        ]}
        inUse={family === 'cutback'}
        moving={outputs.drumDischarge}
      />
      <rect
        x={430}
        y={84}
        width={144}
        height={56}
        rx={26}
        className={isHot ? 'pd-shell pd-shell-on' : 'pd-shell'}
      />
      <path d="M410 103H422L431 98V126L422 121H410Z" className="pd-burner" />
      {isLit && <Flame x={440} y={112} size={17} lying />}
      <Words x={470} y={76} text="batch dryer" max={110} kind="name" />
      <Words x={514} y={109} text={celsius(readings.drumAggregateC)} max={104} kind="value" anchor="middle" />
      <Words
        x={514}
        y={127}
        text={`exhaust ${figure(readings.drumExhaustC, 0)} °C`}
        max={106}
        kind="name"
        anchor="middle"
      />
      {note !== undefined && <Words x={TEXT_X} y={158} text={note.short} max={TEXT_MAX} level={note.level} />}
      {lines.map((line, index) => (
        <Words
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity but their place
          key={index}
          x={TEXT_X}
          y={158 + LINE_PX * (index + (note === undefined ? 0 : 1))}
          text={line}
          max={TEXT_MAX}
        />
      ))}
      <Fan x={425} y={221} r={9} isOn={outputs.drumFan} />
      <Words x={440} y={225} text={`fan ${figure(readings.drumAirM3S, 2)} m³/s`} max={130} />
    </g>
  );
};
