/** The flame interlock as a person reads it: permissives, what is held, what tripped, what keeps a reset away. */
import { burnerMayAdmitFuel } from '../../charts/burner/burner.guards.ts';
import { CAUSES, type InterlockCauseId } from '../../charts/flame-interlock/flame-interlock.causes.ts';
import {
  binderPermissives,
  flamePermissives,
  isTripped,
  latchedCauses,
  type PermissiveStanding,
  resetBlockedBy,
  standingCauses,
} from '../../charts/flame-interlock/flame-interlock.guards.ts';
import type { Line } from '../line.types.ts';
import { chartValue, presentMix } from '../lookup.ts';
import { bindingAggregateC } from '../signals-of.ts';
import type { InterlockView, PermissiveView } from '../view.types.ts';

const permissiveValue = (line: Line, id: InterlockCauseId): string => {
  const { readings: r } = line;
  switch (id) {
    case 'FI-02':
      return `${line.watch.purgeVolumes.toFixed(1)} of ${line.scenario.plant.dryer.purgeVolumes} volumes`;
    case 'FI-03':
      return `${r.hoodFlowM3S.toFixed(2)} m³/s`;
    case 'FI-04':
      return `${r.vapourLelPct.toFixed(1)} % LEL`;
    case 'FI-05':
      return `${(line.signals.cutbackInMixer || presentMix(line).family === 'cutback' ? bindingAggregateC(line) : r.holdingBinC).toFixed(1)} °C`;
    case 'FI-06':
      return `${r.cutbackTankC.toFixed(1)} °C`;
    default:
      return '';
  }
};

const permissive = (line: Line, one: PermissiveStanding): PermissiveView => {
  const { words } = CAUSES[one.id];
  return {
    id: one.id,
    text: one.met ? words.met : words.unmet,
    value: permissiveValue(line, one.id),
    standing: one.met ? 'met' : 'unmet',
    cause: one.met ? '' : words.clear,
  };
};

const words = (id: InterlockCauseId): string => `${id} ${CAUSES[id].words.unmet}`;

export const interlockView = (line: Line): InterlockView => {
  const value = chartValue(line, 'interlock') as never;
  const burner = chartValue(line, 'burner') as never;
  const tripped = isTripped(value);
  const causes = tripped ? [...new Set([...latchedCauses(value), ...standingCauses(value)])] : [];
  return {
    tripped,
    tripCauses: causes.map(words),
    resetBecause: resetBlockedBy(value).map((id) => `${words(id)}. ${CAUSES[id].words.clear}`),
    held: line.held.map((held) => ({
      element: held.element,
      because:
        held.because.length === 0
          ? 'The burner is not in a state that may fire.'
          : held.because.map((id) => CAUSES[id].words.unmet).join('; '),
    })),
    binder: binderPermissives(value).map((one) => permissive(line, one)),
    // What is only asked for at the moment of lighting is undone by firing itself.
    flame: flamePermissives(value)
      .filter((one) => !one.onlyToLight || !burnerMayAdmitFuel(burner))
      .map((one) => permissive(line, one)),
  };
};
