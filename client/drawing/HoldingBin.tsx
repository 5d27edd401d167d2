/** The dry holding bin: mass, temperature against its window, cooling fan, gate to the pug mill. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Fan } from './Fan.tsx';
import { Flow } from './Flow.tsx';
import type { Family } from './family.ts';
import { celsius, kg } from './figures.ts';
import { Gauge } from './Gauge.tsx';
import { type Note, tempOf } from './notes.ts';
import { Valve } from './Valve.tsx';
import { Words } from './Words.tsx';

const X = 600;
const W = 92;
const MID = X + W / 2;
const TOP = 128;
const CONE = 190;
const END = 214;

type Props = { readonly view: LineView; readonly note: Note | undefined; readonly family: Family | null };

export const HoldingBin = ({ view, note, family }: Props) => {
  const { readings, outputs, limits } = view.plant;
  const temp = tempOf(view, /holding/i);
  const isOut = note?.about === 'temperature';
  const share = Math.min(1, Math.max(0, readings.holdingBinKg / limits.holdingBinKg));
  const fillTop = CONE - (CONE - TOP - 4) * share;
  const isOpen = outputs.holdingGate !== 'shut';
  return (
    <g>
      <path
        d={`M${X + 1} ${fillTop}V${CONE}L${MID - 14} ${END}H${MID + 14}L${X + W - 1} ${CONE}V${fillTop}Z`}
        className={readings.holdingBinKg > 20 ? 'pd-fill' : 'pd-empty'}
      />
      <path
        d={`M${X} ${TOP}V${CONE}L${MID - 14} ${END}H${MID + 14}L${X + W} ${CONE}V${TOP}`}
        className="pd-outline"
      />
      <Words x={X - 2} y={102} text="dry holding bin" max={136} kind="name" />
      <Words x={MID} y={156} text={kg(readings.holdingBinKg)} max={W - 6} kind="name" anchor="middle" />
      <Words
        x={MID}
        y={177}
        text={celsius(readings.holdingBinC)}
        max={W - 2}
        kind="value"
        anchor="middle"
        level={isOut ? 'warn' : null}
        isMarked
      />
      <Gauge
        x={702}
        y={124}
        h={84}
        value={readings.holdingBinC}
        scale={temp?.scaleC ?? [0, 150]}
        from={limits.drawC?.fromC ?? temp?.fromC ?? null}
        to={limits.drawC?.toC ?? temp?.toC ?? null}
        isOut={isOut}
      />
      <path d="M604 207H624" className="pd-duct" />
      <Fan x={594} y={207} r={10} isOn={outputs.coolingFan} />
      {note !== undefined && (
        <Words x={738} y={230} text={note.short} max={80} anchor="end" level={note.level} />
      )}
      <Flow
        points={[
          [MID, END + 10],
          [MID, 240],
          [586, 240],
          [586, 270],
        ]}
        inUse={family === 'cutback'}
        moving={isOpen}
      />
      <Valve x={MID} y={END + 7} isOpen={isOpen} size={7} upright />
    </g>
  );
};
