/** A hole cut through, to scale: its layers of mix, crusher run, tack and prime, and the finish above the road. */
import type { Patch } from '../../../machines/yard/patches/patch.types.ts';
import './section.css';

const WIDE = 400;
const MARGIN = 48;
const ROAD_TOP = 46;
/** The deepest hole fills this height. */
const MOST_HIGH = 200;
const MOST_PX_A_MM = 0.5;

type Band = {
  readonly key: string;
  readonly topMm: number;
  readonly mm: number;
  readonly kind: 'mix' | 'fill';
  readonly words: string;
};

/** Layers from the top down; the finish belongs to the uppermost. */
const bandsOf = ({ takeOff }: Patch): readonly Band[] => {
  const bands: Band[] = [];
  let topMm = 0;
  const mixLayers = [...takeOff.layersMm].reverse();
  mixLayers.forEach((mm, i) => {
    bands.push({ key: `mix-${i}`, topMm, mm, kind: 'mix', words: `${mm} mix` });
    topMm += mm;
  });
  [...takeOff.fillLayersMm].reverse().forEach((mm, i) => {
    bands.push({ key: `fill-${i}`, topMm, mm, kind: 'fill', words: `${mm} crusher run` });
    topMm += mm;
  });
  return bands;
};

/** What lies under mix and crusher run. */
const groundWords = ({ baseReached, takeOff }: Patch): string => {
  if (!baseReached) return 'old road, sound';
  return takeOff.fillDepthMm > 0 ? 'granular base' : 'granular base, primed';
};

export function SectionPicture({ patch, trimMm }: { readonly patch: Patch; readonly trimMm: number }) {
  const { takeOff } = patch;
  const depthMm = takeOff.mixDepthMm + takeOff.fillDepthMm;
  const cutMm = Math.min(patch.lengthM, patch.widthM) * 1000 + 2 * trimMm;
  const pxAMm = Math.min(MOST_PX_A_MM, MOST_HIGH / (depthMm + takeOff.finishMm));
  // A wide hole is drawn shortened, with the break shown: heights and widths keep one scale.
  const roomMm = (WIDE - 2 * MARGIN) / pxAMm;
  const broken = cutMm > roomMm;
  const drawnMm = Math.min(cutMm, roomMm);
  const left = (WIDE - drawnMm * pxAMm) / 2;
  const right = WIDE - left;
  const y = (mm: number): number => ROAD_TOP + mm * pxAMm;
  const high = y(depthMm) + 46;
  const primed = takeOff.primeKg > 0;
  const tackY = y(takeOff.mixDepthMm);
  const bands = bandsOf(patch);
  const label = `Section of patch ${patch.row}, from the top, in mm: ${bands.map(({ words }) => words).join(', ')}; finished ${takeOff.finishMm} mm above the road.`;
  return (
    <svg className="yp-section" viewBox={`0 0 ${WIDE} ${high}`} role="img" aria-label={label}>
      <rect className="yp-road" x={0} y={ROAD_TOP} width={WIDE} height={high - ROAD_TOP} />
      {patch.baseReached && (
        <rect className="yp-base" x={0} y={y(depthMm)} width={WIDE} height={high - y(depthMm)} />
      )}
      {bands.map(({ key, topMm, mm, kind, words }) => (
        <g key={key}>
          <rect
            className={kind === 'mix' ? 'yp-mix' : 'yp-fill'}
            x={left}
            y={y(topMm)}
            width={right - left}
            height={mm * pxAMm}
          />
          <text className="yp-in" x={WIDE / 2} y={y(topMm + mm / 2) + 5} textAnchor="middle">
            {words}
          </text>
        </g>
      ))}
      <rect
        className="yp-mix yp-finish"
        x={left}
        y={y(-takeOff.finishMm)}
        width={right - left}
        height={takeOff.finishMm * pxAMm}
      />
      <path className="yp-tack" d={`M${left} ${ROAD_TOP}V${tackY}H${right}V${ROAD_TOP}`} />
      {primed && <path className="yp-prime" d={`M${left} ${tackY + 3}H${right}`} />}
      {broken && (
        <path
          className="yp-break"
          d={`M${WIDE * 0.28} ${y(-takeOff.finishMm) - 6}l-6 ${(y(depthMm) - ROAD_TOP) / 3 + 10}l12 ${(y(depthMm) - ROAD_TOP) / 3}l-6 ${(y(depthMm) - ROAD_TOP) / 3 + 10}`}
        />
      )}
      <path className="yp-line" d={`M0 ${ROAD_TOP}H${left}M${right} ${ROAD_TOP}H${WIDE}`} />
      <path className="yp-dim" d={`M${left} 14V24M${right} 14V24M${left} 19H${right}`} />
      <text className="yp-out" x={WIDE / 2} y={12} textAnchor="middle">
        cut {(cutMm / 1000).toFixed(2)} m wide{broken ? ', drawn shortened' : ''}; all in mm
      </text>
      <text className="yp-out" x={left - 6} y={ROAD_TOP - 5} textAnchor="end">
        +{takeOff.finishMm}
      </text>
      <path
        className="yp-dim"
        d={`M${right + 12} ${ROAD_TOP}V${y(depthMm)}M${right + 7} ${ROAD_TOP}h10M${right + 7} ${y(depthMm)}h10`}
      />
      <text className="yp-out" x={right + 18} y={(ROAD_TOP + y(depthMm)) / 2 + 5}>
        {depthMm}
      </text>
      <text className="yp-out" x={WIDE / 2} y={y(depthMm) + 22} textAnchor="middle">
        {groundWords(patch)}
      </text>
    </svg>
  );
}
