/** What may be done now, as buttons, each with what speaks against it. */
import { isOutOfTolerance } from '../../charts/weigher/weigher.guards.ts';
import { isStepSlow } from '../alarms.ts';
import type { Command, CommandEnvelope } from '../commands.ts';
import type { Line } from '../line.types.ts';
import {
  batchesLeft,
  batchValue,
  campaignState,
  drawsDried,
  presentMix,
  presentOrder,
  WEIGHER_IDS,
  weigherState,
} from '../lookup.ts';
import { reasonsAgainst } from '../refusals.ts';
import { driedTooCold } from '../refusals-start.ts';
import type { ActionView } from '../view.types.ts';

/** Nobody's role: what would be answered to a supervisor in the seat, or to whoever has it. */
const asker = (line: Line): CommandEnvelope['by'] =>
  line.seat.holder ?? { person: '', role: 'operator', console: '' };

const action = (
  line: Line,
  command: Command,
  label: string,
  weight: ActionView['weight'],
  needsReason = false,
): ActionView => ({
  command: command as ActionView['command'],
  label,
  weight,
  because: reasonsAgainst(line, command, asker(line)),
  needsReason,
});

const weightActions = (line: Line): ActionView[] => {
  const states = WEIGHER_IDS.map((id) => weigherState(line, id));
  if (!states.some(isOutOfTolerance)) return [];
  const actions: ActionView[] = [];
  if (states.includes('light')) actions.push(action(line, { do: 'topUp' }, 'Top up', 'primary'));
  if (states.includes('stalled')) actions.push(action(line, { do: 'topUp' }, 'Feed again', 'primary'));
  if (!states.includes('light') && !states.includes('heavy')) return actions;
  actions.push({
    command: { do: 'acceptWeight' },
    label: 'Accept the weight',
    weight: 'plain',
    because: [],
    needsReason: true,
  });
  return actions;
};

/** Offered where the motor does not say that the mill is empty though it must be: a person looks and says so. */
const emptyActions = (line: Line): ActionView[] =>
  [action(line, { do: 'confirmEmpty' }, 'I looked: the pug mill is empty', 'plain')].filter(
    (one) => one.because.length === 0,
  );

/** Offered where a scale that should be empty does not read so. */
const zeroActions = (line: Line): ActionView[] =>
  (['hopper', 'bucket'] as const)
    .filter((scale) => !(scale === 'hopper' ? line.signals.hopperEmpty : line.signals.bucketEmpty))
    .map((scale) => action(line, { do: 'zeroScale', scale }, `Zero the ${scale} scale`, 'plain'))
    .filter((one) => one.because.length === 0);

const dumpAction = (line: Line): ActionView =>
  action(line, { do: 'dump', reason: 'asked at the console' }, 'Dump to waste', 'danger', true);

const batchActions = (line: Line): ActionView[] => {
  const { procedure, step } = batchValue(line);
  switch (procedure) {
    case 'running':
      if (step === 'looking')
        return [
          action(line, { do: 'confirmLook' }, 'Coated: discharge', 'primary'),
          action(line, { do: 'extendMix' }, `Mix ${presentMix(line).times.extraMixS} s more`, 'plain'),
          dumpAction(line),
          action(line, { do: 'hold' }, 'Hold', 'plain'),
        ];
      return [
        ...(isStepSlow(line) ? [...emptyActions(line), ...zeroActions(line)] : []),
        action(line, { do: 'hold' }, 'Hold', 'plain'),
        action(line, { do: 'stop' }, 'Stop', 'danger'),
        action(line, { do: 'abort' }, 'Abort', 'danger'),
      ];
    case 'holding':
    case 'held': {
      const out = weightActions(line);
      return [
        ...out,
        action(line, { do: 'restart' }, 'Restart', out.length > 0 ? 'plain' : 'primary'),
        dumpAction(line),
        action(line, { do: 'stop' }, 'Stop', 'danger'),
        action(line, { do: 'abort' }, 'Abort', 'danger'),
      ];
    }
    case 'stopped':
    case 'aborted':
      return step === 'ready'
        ? [action(line, { do: 'reset' }, 'Reset', 'primary')]
        : [{ ...dumpAction(line), weight: 'primary' }];
    default:
      return [];
  }
};

const batchesWanted = (line: Line): number => Math.max(1, batchesLeft(line, presentOrder(line)));

const campaignActions = (line: Line): ActionView[] => {
  switch (campaignState(line)) {
    case 'cautions':
      return [
        action(line, { do: 'acknowledgeCautions' }, 'I have read the cautions', 'primary'),
        action(line, { do: 'endCampaign' }, 'Not now', 'plain'),
      ];
    case 'readyToLight':
      return [
        action(line, { do: 'lightBurner' }, 'Light the burner', 'primary'),
        action(line, { do: 'endCampaign' }, 'Not now', 'plain'),
      ];
    case 'lighting':
    case 'charging':
    case 'drying':
    case 'emptying':
    case 'counting':
      return [action(line, { do: 'putOutBurner' }, 'Put the burner out', 'danger')];
    case 'flameLost':
      if (!line.signals.burnerAtRest && !line.signals.burnerLockedOut)
        return [action(line, { do: 'putOutBurner' }, 'Put the burner out', 'danger')];
      return [
        line.signals.burnerLockedOut
          ? action(line, { do: 'resetBurner' }, 'Reset the burner', 'primary')
          : action(line, { do: 'lightBurner' }, 'Light the burner again', 'primary'),
        action(line, { do: 'endCampaign' }, 'End the campaign', 'plain'),
      ];
    default:
      return [];
  }
};

const idleActions = (line: Line): ActionView[] => {
  const mix = presentMix(line);
  const stage = campaignState(line);
  const wanted = batchesWanted(line);
  const actions: ActionView[] = [];
  if (drawsDried(mix) && stage === 'idle') {
    const perLot = Math.min(wanted, Math.ceil(mix.lotKg / mix.batchKg));
    actions.push(
      action(
        line,
        { do: 'startCampaign', batches: perLot },
        `Dry aggregate for ${perLot} batches`,
        'primary',
      ),
    );
  } else if (drawsDried(mix) && driedTooCold(line)) {
    actions.push(action(line, { do: 'endCampaign' }, 'Run the holding bin out to waste', 'primary'));
  } else {
    actions.push(action(line, { do: 'start', batches: 1 }, 'Start one batch', 'primary'));
    if (wanted > 1) {
      const run = Math.min(wanted, 14);
      actions.push(action(line, { do: 'start', batches: run }, `Start ${run} in a row`, 'plain'));
    }
  }
  if (!line.signals.hopperEmpty || !line.signals.mixerEmpty || !line.signals.bucketEmpty)
    actions.push(dumpAction(line), ...zeroActions(line));
  actions.push(action(line, { do: 'endShift' }, 'End the shift', 'plain'));
  return actions;
};

/** Cutback waits for a drum that nobody is purging. */
const mayNeedPurge = (line: Line): boolean =>
  presentMix(line).family === 'cutback' &&
  ['cooling', 'available'].includes(campaignState(line)) &&
  reasonsAgainst(line, { do: 'purgeDrum' }, asker(line)).length === 0;

const plainly = (one: ActionView): ActionView =>
  one.weight === 'primary' ? { ...one, weight: 'plain' } : one;

/** Buttons of the moment; a trip's reset comes first. */
export const actionsOf = (line: Line): readonly ActionView[] => {
  if (line.ended) return [];
  const purge = mayNeedPurge(line) ? [action(line, { do: 'purgeDrum' }, 'Purge the drum', 'plain')] : [];
  const trip = line.signals.tripped ? [action(line, { do: 'resetTrip' }, 'Reset the trip', 'primary')] : [];
  const batch = batchActions(line);
  if (batch.length > 0) {
    const rest =
      trip.length > 0
        ? batch.map((a) => (a.weight === 'primary' ? { ...a, weight: 'plain' as const } : a))
        : batch;
    return [...trip, ...rest, ...purge];
  }
  const campaign = campaignActions(line);
  const stage = campaignState(line);
  const idle = stage === 'idle' || stage === 'cooling' || stage === 'available' ? idleActions(line) : [];
  const others = [...weightActions(line), ...campaign, ...idle, ...purge];
  return trip.length > 0 ? [...trip, ...others.map(plainly)] : others;
};
