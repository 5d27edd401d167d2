/** A heated binder tank: temperature, mass, level, coil and its cover, heating and stirring. */
import type { LineView } from '../../machines/line/view.types.ts';
import { celsius, figure, tonnes } from './figures.ts';
import type { Note } from './notes.ts';
import { textWidthPx } from './text.ts';
import { LABEL_PX, Words } from './Words.tsx';

const X = 20;
const W = 158;
const H = 50;
const R = 25;
/** Room for words beside and below a tank; above the upper one there is more. */
const TEXT_MAX = 172;
const LABEL_MAX = 208;

const HEATING_WORDS: { readonly [heating: string]: string } = {
  off: 'not heated',
  wanted: 'heat wanted, set',
  heating: 'heating to',
  held: 'heating held, set',
  'at set': 'at set',
};

type Props = {
  readonly view: LineView;
  readonly id: 'emulsion' | 'cutback';
  readonly y: number;
  readonly note: Note | undefined;
};

/** Height of liquid in a lying cylinder of height 1 that is full by `share` of its height, kept inside the shell. */
const levelY = (y: number, share: number) => y + H - 2 - (H - 4) * Math.min(1, Math.max(0, share));

export const Tank = ({ view, id, y, note }: Props) => {
  const tank = view.plant.tanks.find((each) => each.id === id);
  const { readings, outputs } = view.plant;
  const tempC = id === 'emulsion' ? readings.emulsionTankC : readings.cutbackTankC;
  const isCoilOn = id === 'emulsion' ? outputs.emulsionCoil : outputs.cutbackCoil;
  const isStirred = id === 'emulsion' ? outputs.emulsionStir : outputs.cutbackStir;
  const clip = `pd-tank-${id}`;
  const top = levelY(y, tank?.levelShare ?? 0);
  const heating = tank === undefined ? '' : (HEATING_WORDS[tank.heating] ?? tank.heating);
  const isHeld = tank?.heating === 'held';
  const withSet =
    tank !== undefined && tank.heating !== 'off' ? `${heating} ${figure(tank.setC, 0)} °C` : heating;
  const grade = tank?.grade ?? '';
  const labelMax = id === 'emulsion' ? LABEL_MAX : TEXT_MAX;
  const isLong = id === 'emulsion' && textWidthPx(`${id} tank · ${grade}`, LABEL_PX) > labelMax;
  return (
    <g>
      <clipPath id={clip}>
        <rect x={X + 1} y={y + 1} width={W - 2} height={H - 2} rx={R - 1} />
      </clipPath>
      <rect x={X} y={y} width={W} height={H} rx={R} className="pd-shell" />
      <rect x={X} y={top} width={W} height={y + H - top} className="pd-fill" clipPath={`url(#${clip})`} />
      <rect x={X} y={y} width={W} height={H} rx={R} className="pd-outline" />
      <path
        d={`M6 ${y + 41}H${X + 22}${'l5 -5 5 5'.repeat(10)}H${X + 136}`}
        className={isCoilOn ? 'pd-coil pd-coil-on' : 'pd-coil'}
      />
      {isLong && <Words x={X} y={y - 23} text={`${id} tank`} max={LABEL_MAX} kind="name" />}
      <Words x={X} y={y - 7} text={isLong ? grade : `${id} tank · ${grade}`} max={labelMax} kind="name" />
      <Words x={X + 15} y={y + 28} text={celsius(tempC)} max={70} kind="value" />
      <Words x={X + W - 15} y={y + 28} text={tonnes(tank?.massKg ?? 0)} max={54} kind="value" anchor="end" />
      <Words
        x={X}
        y={y + H + 17}
        text={`coil covered ${figure(tank?.coilCoverMm ?? 0, 0)} mm`}
        max={TEXT_MAX}
      />
      <Words
        x={X}
        y={y + H + 33}
        text={note?.short ?? (isStirred ? `${withSet} · stirred` : withSet)}
        max={TEXT_MAX}
        level={note?.level ?? (isHeld ? 'warn' : null)}
      />
    </g>
  );
};
