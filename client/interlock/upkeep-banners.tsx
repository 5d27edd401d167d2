/** On every page: causes that are inhibited just now, with the time left, and an open hot work permit. */
import type { PermitView } from '../../machines/line/view.types.ts';
import { formatCountdown } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { NO_UPKEEP } from './empty.ts';

const NO_PERMITS: readonly PermitView[] = [];

export function UpkeepBanners() {
  const { proofs } = useLive((live) => live.view?.maintenance ?? NO_UPKEEP);
  const permits = useLive((live) => live.view?.permits ?? NO_PERMITS);
  const inhibited = proofs.filter((proof) => proof.inhibit !== null);
  return (
    <>
      {inhibited.map((proof) => (
        <InhibitBanner key={proof.cause} proof={proof} />
      ))}
      {permits.map((permit) => (
        <p key={permit.n} className="banner upkeep">
          <Mark shape="triangle" />
          <span>
            Hot work at {permit.where}, permit {permit.n}: cutback and tank heat are held.{' '}
            {permit.over ? (
              'Its time has run out: close it on the Interlock page.'
            ) : (
              <Left untilMs={permit.untilMs} />
            )}
          </span>
        </p>
      ))}
    </>
  );
}

function InhibitBanner({ proof }: { readonly proof: (typeof NO_UPKEEP)['proofs'][number] }) {
  const { inhibit } = proof;
  if (inhibit === null) return null;
  return (
    <p className="banner upkeep">
      <Mark shape={inhibit.untilMs === null ? 'ring' : 'triangle'} />
      <span>
        <strong>{proof.cause}</strong>{' '}
        {inhibit.untilMs === null ? (
          `asked to be inhibited by ${inhibit.by}; a second person must confirm it on the Interlock page.`
        ) : (
          <>
            is inhibited for testing: {inhibit.reason}. <Left untilMs={inhibit.untilMs} />
          </>
        )}
      </span>
    </p>
  );
}

function Left({ untilMs }: { readonly untilMs: number }) {
  // Whole minutes here: a banner that changes every second is read out every second.
  const minutes = useLive((live) => Math.ceil((untilMs - (live.view?.shift.atMs ?? 0)) / 60_000));
  const seconds = useLive((live) => Math.ceil((untilMs - (live.view?.shift.atMs ?? 0)) / 1000));
  return (
    <>
      <span className="hidden-words">Ends within {minutes} minutes.</span>
      <span aria-hidden="true" className="num">
        Ends in {formatCountdown(seconds)}.
      </span>
    </>
  );
}
