/** What must not be overlooked, above every page: an altered file, other decisions, an unfinished shift, and what the operator had there. */
import { Link } from 'wouter';
import { UpkeepBanners } from '../interlock/upkeep-banners.tsx';
import { Mark } from '../parts/mark.tsx';
import { useReplay } from './context.ts';
import { CHECK_PATH } from './replay-header.tsx';
import { standingOf } from './verdict-words.ts';

export function Warnings() {
  const key = useReplay((state) => {
    const { tone, sentence } = standingOf(state);
    return tone === 'bad' ? sentence : '';
  });
  const unfinished = useReplay((state) => state.opened !== null && !state.opened.ended);
  return (
    <div className="banners" role="status">
      {key !== '' && (
        <p className="banner strong">
          <Mark shape="triangle" />
          <span>
            {key} <Link href={CHECK_PATH}>See the check.</Link>
          </span>
        </p>
      )}
      <UpkeepBanners />
      {unfinished && (
        <p className="banner">
          <Mark shape="ring" />
          The record in this file stops before the end of the shift.
        </p>
      )}
    </div>
  );
}
