/** Which samples of a lot could be had at all. */
import type { LotView } from '../../machines/line/view.types.ts';

type Sample = LotView['samples'][number];

/** A sample that would have fallen due past what the lot came to was never to be had: that is no one's miss. */
export const wasReached = (lot: LotView, sample: Sample): boolean =>
  sample.state !== 'missed' || sample.atKg === null || sample.atKg <= lot.massKg;
