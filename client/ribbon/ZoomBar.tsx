/** The buttons that choose how much of the shift is in sight. */
import type { Sight } from './use-window.ts';

const SPANS: readonly (readonly [label: string, spanMs: number])[] = [
  ['Whole shift', Number.POSITIVE_INFINITY],
  ['1 h', 3_600_000],
  ['10 min', 600_000],
];

type Props = { readonly sight: Sight; readonly hasReplay: boolean };

export const ZoomBar = ({ sight, hasReplay }: Props) => (
  <fieldset className="rb-zoom">
    <legend className="rb-hidden">Stretch of the shift in sight</legend>
    {SPANS.map(([label, spanMs]) => (
      <button
        key={label}
        type="button"
        aria-pressed={Number.isFinite(spanMs) ? Math.abs(sight.spanMs - spanMs) < 1000 : sight.isWhole}
        onClick={() => sight.show(spanMs)}
      >
        {label}
      </button>
    ))}
    <button type="button" aria-pressed={sight.isFollowing} onClick={sight.follow}>
      {hasReplay ? 'Follow' : 'Follow now'}
    </button>
  </fieldset>
);
