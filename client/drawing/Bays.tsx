/** The belt from the pug mill and where it lays the mix: the bays and the waste skip. */
import type { LineView } from '../../machines/line/view.types.ts';
import { Flow } from './Flow.tsx';
import { bayInUse } from './family.ts';
import { tonnes } from './figures.ts';
import { Words } from './Words.tsx';

const FROM_X = 206;
const TO_X = 734;
const BELT_Y = 432;
const FLOOR_Y = 526;
const MILL_X = 528;
const PILE_MAX = 62;
const SKIP_CAPACITY_KG = 4000;

type Place = {
  readonly id: number;
  readonly name: string;
  readonly massKg: number;
  readonly capacityKg: number;
};

const placesOf = (view: LineView): readonly Place[] => [
  { id: 0, name: 'waste skip', massKg: view.plant.wasteKg, capacityKg: SKIP_CAPACITY_KG },
  ...view.plant.bays,
];

export const Bays = ({ view }: { readonly view: LineView }) => {
  const places = placesOf(view);
  const w = (TO_X - FROM_X) / places.length;
  const present = bayInUse(view);
  const { belt, beltToBay, mixerGate } = view.plant.outputs;
  const midOf = (id: number) =>
    FROM_X +
    w *
      (Math.max(
        0,
        places.findIndex((each) => each.id === id),
      ) +
        0.5);
  const toX = midOf(present ?? 0);
  return (
    <g>
      <path d={`M${FROM_X} ${BELT_Y}H${TO_X}`} className="pd-belt" />
      {belt && <path d={`M${MILL_X} ${BELT_Y}H${midOf(beltToBay)}`} className="pd-flow-ticks" />}
      <circle cx={FROM_X} cy={BELT_Y} r={4} className="pd-roller" />
      <circle cx={TO_X} cy={BELT_Y} r={4} className="pd-roller" />
      {present !== null && (
        <Flow
          points={[
            [toX, BELT_Y + 2],
            [toX, BELT_Y + 22],
          ]}
          inUse
          moving={belt && mixerGate}
        />
      )}
      {places.map((place, index) => {
        const x = FROM_X + w * index;
        const mid = x + w / 2;
        const isPresent = place.id === present;
        const share = Math.min(1, Math.max(0, place.massKg / place.capacityKg));
        const h = PILE_MAX * Math.sqrt(share);
        const half = Math.min(w / 2 - 9, 8 + (w / 2 - 17) * Math.sqrt(share));
        const isSkip = place.id === 0;
        const room = w - 6;
        return (
          <g key={place.id}>
            {place.massKg > 0 && (
              <path
                d={`M${mid - half} ${FLOOR_Y - 1}Q${mid - half * 0.35} ${FLOOR_Y - h * 0.9} ${mid} ${FLOOR_Y - h}Q${mid + half * 0.35} ${FLOOR_Y - h * 0.9} ${mid + half} ${FLOOR_Y - 1}Z`}
                className="pd-pile"
              />
            )}
            <path
              d={
                isSkip
                  ? `M${x + 5} 492L${x + 11} ${FLOOR_Y}H${x + w - 11}L${x + w - 5} 492`
                  : `M${x + 4} 470V${FLOOR_Y}H${x + w - 4}V470`
              }
              className={isPresent ? 'pd-outline pd-present' : 'pd-outline'}
            />
            <Words
              x={mid}
              y={544}
              text={isSkip && w < 84 ? 'waste' : place.name}
              max={room}
              kind={isPresent ? 'name' : 'label'}
              anchor="middle"
            />
            <Words x={mid} y={561} text={tonnes(place.massKg)} max={room} kind="value" anchor="middle" />
          </g>
        );
      })}
    </g>
  );
};
