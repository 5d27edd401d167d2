/** What the events of the charts mean, in the words of people at the plant. */
import { SIGNALS, type Signal } from '../../../machines/charts/signals.ts';

/** What it means that a signal is no longer so, where "no longer" would puzzle. */
const GONE: { readonly [S in Signal]?: string } = {
  drumFanProved: 'Dryer fan moves too little air',
  purged: 'The count of the purge begins at zero',
  flameSeen: 'Scanner sees no dryer flame',
  fuelShut: 'Dryer fuel valve is not proved shut',
  fuelAskedOpen: 'Dryer fuel valves are asked to shut',
  extractionProved: 'Hood extraction is lost',
  vapourLow: 'Vapour at the hood rises above the warning level',
  vapourHigh: 'Vapour at the hood falls below the trip level',
  detectorOk: 'The vapour detector fails',
  aggregateOverLimit: 'Aggregate is cool enough for solvent-bearing binder',
  cutbackInWindow: 'Cutback leaves its working window',
  cutbackInBucket: 'Weigh bucket holds no solvent-bearing binder',
  cutbackInMixer: 'Pug mill holds no solvent-bearing binder',
  binderValveShut: 'Binder valve to the pug mill is not proved shut',
  binderValveAskedOpen: 'Binder valve to the pug mill is asked to shut',
  emergencyStop: 'Emergency stop let go',
  powerOk: 'Supply to the plant is lost',
  detectorCalibrated: 'The vapour detector falls out of calibration',
  hotWorkOpen: 'No hot work permit is open',
  emulsionKnown: 'What is in the emulsion tank is in doubt',
  cutbackKnown: 'What is in the cutback tank is in doubt',
  flamePermitted: 'Flame interlock forbids the dryer flame',
  tripped: 'No trip is latched',
  heatWanted: 'No tank asks for heat',
  oilFlowing: 'Thermal oil does not flow',
  oilFlameSeen: 'Flame of the thermal-oil heater is not seen',
  oilHot: 'Thermal oil below its set temperature',
  oilOverLimit: 'Thermal oil below its limit',
  emulsionCovered: 'Emulsion stands too low above its coil',
  cutbackCovered: 'Cutback stands too low above its coil',
  emulsionOverLimit: 'Emulsion below the temperature it may not pass',
  cutbackOverLimit: 'Cutback below the temperature it may not pass',
  emulsionDelivery: 'No delivery into the emulsion tank',
  cutbackDelivery: 'No delivery into the cutback tank',
  emulsionDrawn: 'No emulsion is drawn',
  cutbackDrawn: 'No cutback is drawn',
  emulsionVentHigh: 'Vapour at the vents low enough to heat the emulsion tank',
  cutbackVentHigh: 'Vapour at the vents low enough to heat the cutback tank',
  emulsionMayHeat: 'Tank interlock forbids the emulsion tank heat',
  cutbackMayHeat: 'Tank interlock forbids the cutback tank heat',
};

const TIMES: { readonly [delay: string]: string } = {
  flameMissing: 'the fuel has been open without a flame for too long',
  flameDies: 'a dying flame should be gone by now',
  valveCloses: 'the binder valve should be shut by now',
  fanStarts: 'the dryer fan should be proved by now',
  trialForIgnition: 'the trial for ignition is over',
  mainTrial: 'the main flame has had its time beside the pilot',
  flameFailure: 'the flame has been gone for the flame-failure time',
  fuelCloses: 'the fuel valve should be shut by now',
  flowStarts: 'the oil should be flowing by now',
  oilTrial: 'the trial of the oil burner is over',
  pumpRunsOn: 'the pump has run on long enough',
  shelved: 'the time on the shelf is over',
  settle: 'the scale has settled',
  quiet: 'everything has come to rest',
  preWetMix: 'the stones are wetted',
  binderMix: 'the mix has had its time',
  extraMix: 'the extra mixing is over',
  clearOut: 'the belt has run clear',
};

const SAID: { readonly [event: string]: string } = {
  start: 'To begin with',
  'on.purged': 'Enough air has been changed: the drum is purged',
  'line.signalsKnown': 'The interlock has heard every signal once',
  'line.booked': 'The line has booked the batch',
  'line.purgeDrum': 'The line asks for air through the drum',
  'line.putOutBurner': 'The campaign has dried enough and puts the burner out',
  'operator.resetTrip': 'A person resets the trip',
  'operator.resetBurner': 'A person resets the burner',
  'operator.resetHeater': 'A person resets the oil heater',
  'operator.lightBurner': 'A person lights the burner',
  'operator.putOutBurner': 'A person puts the burner out',
  'operator.heatOn': 'A person turns the heating on',
  'operator.heatOff': 'A person turns the heating off',
  'the heater hears the tank interlock': 'The heater hears what its tank interlock says',
};

const spaced = (name: string): string => name.replace(/([A-Z])/g, ' $1').toLowerCase();
const lower = (text: string): string =>
  /^[A-Z][a-z]/.test(text) ? `${text[0]?.toLowerCase()}${text.slice(1)}` : text;

/** One sentence, without its full stop. An event that is in words already is left as it is. */
export const meaningOf = (event: string): string => {
  const said = SAID[event];
  if (said !== undefined) return said;
  if (event.startsWith('line steps, asked for'))
    return `The line takes its step,${event.slice('line steps,'.length)}`;
  const [origin = '', name = '', delay = ''] = event.split('.');
  if (origin === 'on' || origin === 'off') {
    const words = Object.hasOwn(SIGNALS, name) ? SIGNALS[name as Signal] : spaced(name);
    return origin === 'on' ? words : (GONE[name as Signal] ?? `No longer so: ${lower(words)}`);
  }
  if (origin === 'xstate') return `Time passes: ${TIMES[delay] ?? spaced(delay)}`;
  if (origin === 'operator') return `A person asks: ${spaced(name)}`;
  if (origin === 'line') return `The line says: ${spaced(name)}`;
  if (origin === 'scale') return `The scale says: ${spaced(name)}`;
  return `${event[0]?.toUpperCase()}${event.slice(1)}`;
};
