/** How much of the aggregate of a drying campaign is dried, while the dryer works at it. */
import { formatTonnes, percent, share01 } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { isDrying } from './idle.ts';

export function CampaignProgress() {
  const campaign = useLive((live) => live.view?.campaign ?? null);
  if (!isDrying(campaign) || campaign === null || campaign.wantedKg <= 0) return null;
  const { driedKg, wantedKg } = campaign;
  return (
    <div className="campaign-progress">
      <h2 className="label">Dried so far</h2>
      <p className="num">
        {formatTonnes(driedKg)} <span className="soft">of {formatTonnes(wantedKg)}</span>
      </p>
      <div className="bar" aria-hidden="true">
        <i style={{ width: percent(share01(driedKg, wantedKg)) }} />
      </div>
    </div>
  );
}
