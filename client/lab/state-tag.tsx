/** Where a lot stands, as mark and words. */
import type { LotState } from '../../machines/lab/facts.ts';
import { Mark } from '../parts/mark.tsx';
import { isAbnormal, LOT_STATE_SHAPE } from './words.ts';

export const LotStateTag = ({
  state,
  done = null,
}: {
  readonly state: LotState;
  readonly done?: string | null;
}) => (
  <span className={isAbnormal(state) ? 'lot-state wants' : 'lot-state'}>
    <Mark shape={LOT_STATE_SHAPE[state]} />
    {state}
    {done !== null && `, ${done}`}
  </span>
);
