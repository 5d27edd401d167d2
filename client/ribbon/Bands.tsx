/** The finished blocks, and cuts between batches: drawn once per zoom, not per tick of the clock. */
import { memo, useMemo } from 'react';
import type { RibbonBlock } from '../../machines/line/view.types.ts';
import { batchStartsMs, tonePaths } from './blocks.ts';

type Props = {
  readonly blocks: readonly RibbonBlock[];
  readonly pxPerMs: number;
  readonly y: number;
  readonly h: number;
  readonly hatchId: string;
  /** Only for blocks that still run. */
  readonly nowMs: number;
};

export const Bands = memo(({ blocks, pxPerMs, y, h, hatchId, nowMs }: Props) => {
  const paths = useMemo(() => [...tonePaths(blocks, pxPerMs, y, h, nowMs)], [blocks, pxPerMs, y, h, nowMs]);
  const cuts = useMemo(
    () =>
      batchStartsMs(blocks)
        .map((ms) => `M${(ms * pxPerMs - 0.5).toFixed(2)} ${y}v${h}`)
        .join(''),
    [blocks, pxPerMs, y, h],
  );
  return (
    <g>
      {paths.map(([tone, d]) => (
        <path
          key={tone}
          d={d}
          className={`rb-tone rb-${tone}`}
          {...(tone === 'hold' ? { style: { fill: `url(#${hatchId})` } } : {})}
        />
      ))}
      <path d={cuts} className="rb-cut" />
    </g>
  );
});
Bands.displayName = 'Bands';
