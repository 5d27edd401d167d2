/** Tanks and bins as pictures: a lying cylinder seen from its end and side, a bin as a hopper, level and order level. */
import { dipOfM } from '../../../machines/mix/cylinder.ts';
import type { StoreView } from '../../../machines/yard/stock/views/materials.ts';

const W = 340;
const H = 108;

/** Levels in m from the bottom at 15 °C. */
const levelM = (store: StoreView, kg: number): number =>
  store.shape === null
    ? 0
    : dipOfM(store.shape.diameterM, store.shape.lengthM, kg / store.shape.densityAt15KgM3);

export function TankPicture({ store }: { readonly store: StoreView }) {
  const { shape } = store;
  if (shape === null) return null;
  const scale = Math.min(84 / shape.diameterM, 150 / shape.lengthM);
  const [d, l] = [shape.diameterM * scale, shape.lengthM * scale];
  const bottom = 96;
  const y = (m: number) => bottom - m * scale;
  const level = levelM(store, store.kg);
  const orderAt = store.orderAtKg === null ? null : Math.min(levelM(store, store.orderAtKg), shape.diameterM);
  const cx = 16 + d / 2;
  const side = 34 + d;
  // Above the level where there is room and the order line does not cross the figure, else below it.
  const above = y(level) - 4;
  const crossed = orderAt !== null && y(orderAt) > above - 13 && y(orderAt) < above + 3;
  const levelY = y(level) > bottom - d + 16 && !crossed ? above : y(level) + 14;
  const clip = `sk-tank-${store.material}`;
  const words = `${store.material} tank, ${Math.round(level * 1000)} of ${Math.round(shape.diameterM * 1000)} mm`;
  return (
    <svg className="sk-pic" viewBox={`0 0 ${W} ${H}`} role="img" aria-label={words}>
      <clipPath id={`${clip}-e`}>
        <circle cx={cx} cy={bottom - d / 2} r={d / 2} />
      </clipPath>
      <circle cx={cx} cy={bottom - d / 2} r={d / 2} className="sk-shell" />
      <rect
        x={16}
        y={y(level)}
        width={d}
        height={level * scale}
        className="sk-fill"
        clipPath={`url(#${clip}-e)`}
      />
      <circle cx={cx} cy={bottom - d / 2} r={d / 2} className="sk-line" />
      <rect x={side} y={bottom - d} width={l} height={d} className="sk-shell" />
      <rect
        x={side + 1}
        y={y(level)}
        width={l - 2}
        height={Math.max(0, level * scale - 1)}
        className="sk-fill"
      />
      <rect x={side} y={bottom - d} width={l} height={d} className="sk-line" />
      <path d={`M${side} ${y(shape.leastMm / 1000)}h${l}`} className="sk-thin" strokeDasharray="2 3" />
      {orderAt !== null && <path d={`M${side} ${y(orderAt)}h${l}`} className="sk-order-line" />}
      <text x={side + 6} y={levelY} className="num">
        {Math.round(level * 1000)} mm
      </text>
      <text x={side + l + 6} y={y(shape.leastMm / 1000) + 4} className="sk-soft">
        coil covered
      </text>
      {orderAt !== null && Math.abs(y(orderAt) - y(shape.leastMm / 1000)) > 13 && (
        <text x={side + l + 6} y={y(orderAt) + 4} className="sk-soft">
          order
        </text>
      )}
    </svg>
  );
}

export function BinPicture({ store }: { readonly store: StoreView }) {
  const share = store.capacityKg === null ? 0 : Math.min(1, store.kg / store.capacityKg);
  // A prism over a funnel: the funnel holds a quarter of the bin.
  const [top, neck, foot] = [12, 62, 94];
  const y =
    share >= 0.25
      ? neck - ((share - 0.25) / 0.75) * (neck - top)
      : foot - Math.sqrt(share / 0.25) * (foot - neck);
  const clip = `sk-${store.id.replace(':', '-')}`;
  const words = `${store.material}: ${Math.round(share * 100)} % full`;
  return (
    <svg className="sk-pic" viewBox={`0 0 ${W} ${H}`} role="img" aria-label={words}>
      <clipPath id={clip}>
        <path d={`M20 ${top}H150V${neck}L98 ${foot}H72L20 ${neck}Z`} />
      </clipPath>
      <path d={`M20 ${top}H150V${neck}L98 ${foot}H72L20 ${neck}Z`} className="sk-shell" />
      <rect x={20} y={y} width={130} height={foot - y} className="sk-fill" clipPath={`url(#${clip})`} />
      <path d={`M20 ${top}H150V${neck}L98 ${foot}H72L20 ${neck}Z`} className="sk-line" />
      <text x={164} y={Math.max(20, Math.min(90, y + 4))} className="num">
        {Math.round(share * 100)} % full
      </text>
    </svg>
  );
}
