/** What the line does at each stage of a drying campaign. */
import { mayWeighCharge } from '../charts/campaign/campaign.guards.ts';
import type { CampaignState } from '../charts/campaign/campaign.machine.ts';
import { blendMoisturePct } from '../mix/batch-targets.ts';
import { moveAll, moveMass, toGrams, trueUp } from './books.ts';
import { accountGrams, binsNow, campaignState, mixById, netKg, weigherState } from './lookup.ts';
import { addMark } from './ribbon.ts';
import { weighForDryer } from './weigh-work.ts';
import { tell, type Work } from './work.ts';

/** The drum has run empty: what the holding bin gained is dry aggregate, the rest was water. */
const bookDried = (work: Work): void => {
  const { line } = work;
  const { campaign } = line;
  const inGrams = accountGrams(line, 'dryer');
  if (campaign === null || inGrams <= 0) return;
  const gained = Math.max(0, toGrams(line.readings.holdingBinKg - campaign.binFromKg));
  const outGrams = Math.min(inGrams, gained);
  moveMass(work, 'dryer', 'holdingBin', outGrams, 'dry aggregate');
  moveMass(work, 'dryer', 'waterLost', inGrams - outGrams, 'water');
  line.campaign = { ...campaign, charges: campaign.charges + 1 };
  tell(work, {
    is: 'chargeDried',
    campaign: campaign.n,
    charge: campaign.charges + 1,
    inGrams,
    outGrams,
    outC: line.readings.drumAggregateC,
    fuelS: Math.round(campaign.fuelTicks / 10),
  });
};

/** A charge cut short on its way from the hopper: what the scale no longer shows lies in the drum. */
const leftForDrum = (work: Work): void => {
  const { line } = work;
  if (line.outputs.hopperTo !== 'dryer' || line.campaign === null) return;
  const gone = accountGrams(line, 'hopper') - Math.max(0, toGrams(netKg(line, 'hopperKg')));
  if (gone <= 0) return;
  if (accountGrams(line, 'dryer') === 0)
    line.campaign = { ...line.campaign, binFromKg: line.readings.holdingBinKg };
  moveMass(work, 'hopper', 'dryer', gone, 'aggregate');
};

export const enterCampaign = (work: Work, before: CampaignState, stage: CampaignState): void => {
  const { line } = work;
  if (line.campaign !== null) tell(work, { is: 'campaignStep', campaign: line.campaign.n, step: stage });
  switch (stage) {
    case 'flameLost':
    case 'puttingOut':
      if (before === 'charging') leftForDrum(work);
      return;
    case 'counting':
      bookDried(work);
      return;
    case 'available':
      addMark(work, 'person', 'Dry aggregate inside its window');
      return;
    case 'runningOut':
      trueUp(work, 'holdingBin', line.readings.holdingBinKg, 'dry aggregate');
      moveAll(work, 'holdingBin', 'waste', 'dry aggregate');
      work.asks.push({ ask: 'clearHoldingBin' });
      return;
    case 'idle':
      trueUp(work, 'holdingBin', line.readings.holdingBinKg, 'dry aggregate');
      line.campaign = null;
      return;
    default:
  }
};

/** Dry mass still coming from drum and hopper, kg, by the moisture that is known now. */
const comingKg = (work: Work): number => {
  const { line } = work;
  if (line.campaign === null) return 0;
  const hopper = line.weighers.aggregateWeigher.purpose === 'dryer' ? accountGrams(line, 'hopper') : 0;
  const moisturePct = blendMoisturePct(mixById(line, line.campaign.mixId), binsNow(line));
  return (accountGrams(line, 'dryer') + hopper) / 1000 / (1 + moisturePct / 100);
};

/** Weighs up the next charge as soon as the hopper is free and another is needed. */
export const weighNextCharge = (work: Work): void => {
  const { line } = work;
  const { campaign } = line;
  if (campaign === null || !mayWeighCharge(campaignState(line))) return;
  if (line.weighers.aggregateWeigher.tasks.length > 0 || weigherState(line, 'aggregateWeigher') !== 'idle')
    return;
  if (!line.signals.hopperEmpty) return;
  const chargeKg = mixById(line, campaign.mixId).drying?.chargeKg ?? 0;
  const capacityKg = line.scenario.plant.holdingBin.capacityKg;
  const expectedKg = line.readings.holdingBinKg + comingKg(work);
  if (expectedKg >= campaign.wantedKg || expectedKg + chargeKg > capacityKg) return;
  weighForDryer(work);
};

/** Stone let out of the drum after the campaign was ended early is booked once the drum is empty. */
export const bookLateDrum = (work: Work): void => {
  const stage = campaignState(work.line);
  if ((stage === 'puttingOut' || stage === 'cooling' || stage === 'available') && work.line.signals.drumEmpty)
    bookDried(work);
};
