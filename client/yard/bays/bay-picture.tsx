/** A bay cut open from the side, to scale: its lots as layers from the back wall to the mouth, hatched by how they stand. */
import { useId } from 'react';
import type { PlaceView, Standing } from '../../../machines/yard/stock/views/bays.ts';
import { Mark } from '../../parts/mark.tsx';
import { STANDING } from '../stock/words.ts';

const W = 400;
const H = 190;
const FLOOR = 162;
const LEFT = 16;
/** px a metre, the same for every bay, so that they can be compared: 6 m of depth and 3.2 m of height find room. */
const SCALE = 45;

function Hatches({ id }: { readonly id: string }) {
  return (
    <>
      <pattern
        id={`${id}-hold`}
        width="9"
        height="9"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect width="9" height="9" className="sk-hatch-ground" />
        <path d="M3 0V9" className="sk-hatch-hold" />
      </pattern>
      <pattern id={`${id}-bad`} width="8" height="8" patternUnits="userSpaceOnUse">
        <rect width="8" height="8" className="sk-hatch-ground" />
        <path d="M0 0 8 8M8 0 0 8" className="sk-hatch-bad" />
      </pattern>
    </>
  );
}

const fillOf = (standing: Standing, id: string): { fill: string } | Record<string, never> => {
  if (standing === 'on hold') return { fill: `url(#${id}-hold)` };
  return standing === 'rejected' ? { fill: `url(#${id}-bad)` } : {};
};

/** Lots share a section in proportion to mass: the heap grew from the wall, each layer over the one before. */
export function BayPicture({ place }: { readonly place: PlaceView }) {
  const id = useId().replaceAll(':', '');
  const { shape, heap, layers } = place;
  if (shape === null || heap === null) return null;
  const depth = shape.depthM * SCALE;
  const bands = layers.reduce<{ to: number; from: number; n: number; standing: Standing; lot: string }[]>(
    (out, layer) => {
      const from = out.at(-1)?.to ?? 0;
      const to = from + (place.kg > 0 ? layer.kg / place.kg : 0);
      out.push({ from, to, n: layer.n, standing: layer.standing, lot: layer.lot });
      return out;
    },
    [],
  );
  const corner = (share: number): [number, number] => {
    const k = Math.sqrt(share) * SCALE;
    return [LEFT + 10 + heap.footM * k, FLOOR - heap.heightM * k];
  };
  const words = `${place.name} from the side, to scale: heap ${heap.heightM.toFixed(1)} m high, ${heap.footM.toFixed(1)} m of ${shape.depthM} m deep, ${layers.length} layers.`;
  const x0 = LEFT + 10;
  return (
    <svg className="sk-pic" viewBox={`0 0 ${W} ${H}`} role="img" aria-label={words}>
      <Hatches id={id} />
      {bands.map((band) => {
        const [x1, y1] = corner(band.from);
        const [x2, y2] = corner(band.to);
        return (
          <path
            key={band.n}
            d={`M${x0} ${y2}L${x2} ${FLOOR}H${x1}L${x0} ${y1}Z`}
            className="sk-layer"
            data-standing={band.standing}
            style={fillOf(band.standing, id)}
          />
        );
      })}
      <rect x={LEFT} y={FLOOR - 3.2 * SCALE} width={10} height={3.2 * SCALE} className="sk-wall" />
      <path d={`M${LEFT} ${FLOOR}H${x0 + depth}`} className="sk-line" />
      <path d={`M${x0 + depth} ${FLOOR - 5}v10`} className="sk-line" />
      {shape.cover !== 'open' && (
        <path
          d={
            shape.cover === 'roof'
              ? `M${LEFT} ${FLOOR - 3.2 * SCALE}L${x0 + depth} ${FLOOR - 3.5 * SCALE}`
              : `M${x0} ${corner(1)[1] - 5}L${corner(1)[0] + 6} ${FLOOR - 2}`
          }
          className="sk-line"
          strokeDasharray={shape.cover === 'sheet' ? '7 3' : undefined}
        />
      )}
      {heap.heightM > 0 && (
        <text
          x={x0 + heap.footM * SCALE * 0.62 + 18}
          y={Math.max(40, FLOOR - Math.max(10, heap.heightM * SCALE * 0.62))}
          className="num"
        >
          {heap.heightM.toFixed(1)} m high, foot {heap.footM.toFixed(1)} m out
        </text>
      )}
      <path d={`M${W - 20 - SCALE} ${H - 12}h${SCALE}m0 -4v8m${-SCALE} 0v-8`} className="sk-line" />
      <text x={W - 28 - SCALE} y={H - 8} textAnchor="end" className="sk-soft">
        1 m
      </text>
      <text x={x0} y={H - 8} className="sk-soft">
        {shape.widthM} m wide, {shape.depthM} m deep,{' '}
        {shape.cover === 'open' ? 'open to the sky' : `under a ${shape.cover}`}
      </text>
    </svg>
  );
}

const ALL: readonly Standing[] = ['may leave', 'not yet tested', 'on hold', 'rejected'];

export function BayKey() {
  const id = useId().replaceAll(':', '');
  return (
    <div className="sk-key">
      {ALL.map((standing) => (
        <span key={standing}>
          <svg className="sk-swatch" viewBox="0 0 26 14" aria-hidden="true">
            {standing === 'may leave' && <Hatches id={id} />}
            <rect
              x="0.5"
              y="0.5"
              width="25"
              height="13"
              className="sk-layer"
              data-standing={standing}
              style={fillOf(standing, id)}
            />
          </svg>
          <Mark shape={STANDING[standing].shape} />
          {STANDING[standing].words}
        </span>
      ))}
    </div>
  );
}
