/** The binder weigh bucket, its two feeds and its valve to the pug mill. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import type { Family } from './family.ts';
import { kg } from './figures.ts';
import { type Note, weightOf } from './notes.ts';
import { Valve } from './Valve.tsx';
import { Words } from './Words.tsx';

const MID = 336;
const TOP = 280;
const END = 322;
const DEFAULT_CAPACITY_KG = 120;

const valveWords = (view: LineView): string => {
  const isAsked = view.plant.outputs.bucketValve;
  const isShut = view.plant.readings.bucketValveShut === 1;
  if (isAsked) return isShut ? 'opening' : 'open';
  return isShut ? 'shut' : 'shutting';
};

type Props = {
  readonly view: LineView;
  readonly note: Note | undefined;
  readonly valveNote: Note | undefined;
  readonly family: Family | null;
};

export const BinderBucket = ({ view, note, valveNote, family }: Props) => {
  const { readings, outputs } = view.plant;
  const weight = weightOf(view, /bucket|binder/i);
  const share = Math.min(1, Math.max(0, readings.bucketKg / (weight?.capacityKg ?? DEFAULT_CAPACITY_KG)));
  const fillTop = END - 1 - (END - TOP - 4) * share;
  const halfAt = (y: number) => 46 - 14 * ((y - TOP) / (END - TOP));
  const isOpen = readings.bucketValveShut === 0;
  const hasBinder = readings.bucketKg > 0.2;
  const target = weight?.targetKg == null ? '' : ` · of ${kg(weight.targetKg, 1)}`;
  const isFeeding = outputs.emulsionFeed !== 'shut';
  const isCutbackFeeding = outputs.cutbackFeed !== 'shut';
  return (
    <g>
      <Flow
        points={[
          [178, 283],
          [293, 283],
        ]}
        inUse={family === 'emulsion'}
        moving={isFeeding}
      />
      <Flow
        points={[
          [178, 401],
          [196, 401],
          [196, 304],
          [300, 304],
        ]}
        inUse={family === 'cutback'}
        moving={isCutbackFeeding}
      />
      <Valve x={222} y={283} isOpen={isFeeding} size={8} />
      <Valve x={222} y={304} isOpen={isCutbackFeeding} size={8} />
      <path
        d={`M${MID - halfAt(fillTop) + 1} ${fillTop}L${MID - 31} ${END}H${MID + 31}L${MID + halfAt(fillTop) - 1} ${fillTop}Z`}
        className={readings.bucketKg > 0 ? 'pd-fill' : 'pd-empty'}
      />
      <path
        d={`M${MID - 46} ${TOP}L${MID - 32} ${END}H${MID + 32}L${MID + 46} ${TOP}`}
        className="pd-outline"
      />
      <Words x={236} y={258} text={`binder bucket${target}`} max={188} kind="name" />
      <Words
        x={236}
        y={274}
        text={note?.short ?? weight?.text ?? ''}
        max={188}
        level={note?.level ?? (weight?.standing === 'alarm' ? 'warn' : null)}
      />
      <Words x={MID} y={307} text={kg(readings.bucketKg, 1)} max={74} kind="value" anchor="middle" />
      <Flow
        points={[
          [MID, END],
          [MID, 340],
          [430, 340],
        ]}
        inUse={family !== null}
        moving={isOpen && hasBinder}
      />
      <Valve x={392} y={340} isOpen={isOpen} level={valveNote?.level ?? null} />
      <Words
        x={424}
        y={364}
        text={valveNote?.short ?? valveWords(view)}
        max={128}
        kind="name"
        anchor="end"
        level={valveNote?.level ?? null}
      />
    </g>
  );
};
