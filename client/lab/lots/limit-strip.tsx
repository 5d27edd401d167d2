/** Results of one property against its limits, small: the part allowed is grey, what lies outside is a triangle. */

const WIDTH = 168;
const HEIGHT = 28;
const EDGE = 10;

export type StripScale = { readonly min: number; readonly max: number };

/** A scale that shows limits and values with some room on both sides. */
export function stripScale(values: readonly number[], from: number | null, to: number | null): StripScale {
  const seen = [...values, ...(from === null ? [] : [from]), ...(to === null ? [] : [to])];
  const low = Math.min(...seen);
  const high = Math.max(...seen);
  const room = high > low ? (high - low) * 0.35 : Math.max(Math.abs(low) * 0.1, 0.5);
  return { min: low - room, max: high + room };
}

export function LimitStrip({
  values,
  from,
  to,
  words,
}: {
  readonly values: readonly number[];
  readonly from: number | null;
  readonly to: number | null;
  /** What the picture shows, for those who do not see it. */
  readonly words: string;
}) {
  if (values.length === 0 && from === null && to === null) return null;
  const { min, max } = stripScale(values, from, to);
  const x = (value: number): number => EDGE + ((WIDTH - 2 * EDGE) * (value - min)) / (max - min);
  const left = from === null ? 0 : x(from);
  const right = to === null ? WIDTH : x(to);
  const isOut = (value: number): boolean => (from !== null && value < from) || (to !== null && value > to);
  return (
    <svg className="limit-strip" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
      <line className="pc-grid" x1="0" x2={WIDTH} y1={HEIGHT / 2} y2={HEIGHT / 2} />
      {(from !== null || to !== null) && (
        <rect className="gr-band" x={left} width={Math.max(0, right - left)} y="5" height={HEIGHT - 10} />
      )}
      {values.map((value, i) =>
        isOut(value) ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: two samples may give the same value
          <path key={i} className="pc-signal" d={`M${x(value)} 6l7 13h-14z`} />
        ) : (
          // biome-ignore lint/suspicious/noArrayIndexKey: two samples may give the same value
          <circle key={i} className="pc-point" cx={x(value)} cy={HEIGHT / 2} r="4" />
        ),
      )}
    </svg>
  );
}
