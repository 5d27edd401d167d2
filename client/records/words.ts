/** Facts and commands of the record as one sentence each. */
import { TAGS } from '../../machines/field/tags.ts';
import { wordsOfFact } from '../../machines/ledger/words.ts';
import type { Command, CommandName } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { BookName } from '../../machines/record/book.types.ts';
import type { LedgerFact } from '../../machines/record/entry.ts';
import { formatKg, formatTonnes, plainDays } from '../format/format.ts';

const COMMAND_WORDS: { readonly [K in CommandName]: string } = {
  takeControls: 'take the controls',
  askForControls: 'ask for the controls',
  handOver: 'hand over the controls',
  releaseControls: 'release the controls',
  declineRequest: 'keep the controls',
  start: 'start',
  hold: 'hold',
  restart: 'restart',
  stop: 'stop',
  abort: 'abort',
  reset: 'reset',
  confirmLook: 'confirm the look',
  confirmEmpty: 'confirm that the pug mill is empty',
  extendMix: 'mix longer',
  topUp: 'top up a weight',
  acceptWeight: 'accept a weight',
  zeroScale: 'set a scale to zero',
  dump: 'dump the batch',
  acknowledgeCautions: 'acknowledge the cautions',
  startCampaign: 'start drying',
  purgeDrum: 'purge the drum',
  lightBurner: 'light the burner',
  putOutBurner: 'put out the burner',
  endCampaign: 'end drying',
  resetBurner: 'reset the burner',
  resetTrip: 'reset the trip',
  heatTank: 'heat a tank',
  resetHeater: 'reset the oil heater',
  acknowledge: 'acknowledge an alarm',
  shelve: 'shelve an alarm',
  unshelve: 'unshelve an alarm',
  outOfService: 'take an alarm out of service',
  returnToService: 'return an alarm to service',
  takeSample: 'take a sample',
  commitPlan: 'commit the sampling plan',
  callSample: 'call a sample',
  openPlan: 'open the sampling plan',
  chooseOrder: 'choose an order',
  refillBin: 'refill a bin',
  setMoisture: 'correct for a moisture test',
  standIn: 'switch the stand-in operator',
  injectFault: 'put in a fault',
  clearFault: 'clear a fault',
  emergencyStop: 'press the emergency stop',
  releaseEmergencyStop: 'release the emergency stop',
  endShift: 'end the shift',
  proveCause: 'record a proof test',
  inhibitCause: 'inhibit a cause for testing',
  confirmInhibit: 'confirm an inhibit',
  liftInhibit: 'lift an inhibit',
  openHotWork: 'open a hot work permit',
  closeHotWork: 'close the hot work permit',
  receiveDelivery: 'receive a delivery',
  confirmDelivery: 'confirm what was delivered',
  endDelivery: 'end a delivery',
  identifyTank: 'identify the contents of a tank',
};

export const commandWords = (name: string): string =>
  name in COMMAND_WORDS ? COMMAND_WORDS[name as CommandName] : name;

/** Names of states as people say them: "addingBinder" is "adding binder". */
export const plainWords = (name: string): string =>
  name.replace(
    /([a-z0-9])([A-Z])/g,
    (_, before: string, after: string) => `${before} ${after.toLowerCase()}`,
  );

/** Names of alarms and accounts are written for the program: "mixed-too-long", "holdingBin". */
const spacedWords = (name: string): string => plainWords(name.replaceAll('-', ' '));

const PLACES: { readonly [account: string]: string } = {
  materials: 'the stock',
  mixer: 'the pug mill',
  bucket: 'the binder bucket',
  hopper: 'the weigh hopper',
  dryer: 'the dryer',
  waterLost: 'steam and spray',
  holdingBin: 'the holding bin',
  waste: 'the waste skip',
};

const placeWords = (account: string): string =>
  PLACES[account] ?? (account.startsWith('lot:') ? account.replace(':', ' ') : spacedWords(account));

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const tagWords = (target: string): string =>
  target in TAGS ? TAGS[target as keyof typeof TAGS].label : target;

/** A command with what it was given: "start (batches 3)". */
export function commandSentence(command: Command): string {
  const more = Object.entries(command)
    .filter(([key, value]) => key !== 'do' && value !== null && typeof value !== 'object')
    .map(([key, value]) => `${key} ${String(value)}`);
  return commandWords(command.do) + (more.length > 0 ? ` (${more.join(', ')})` : '');
}

type Words = { readonly [K in Fact['is']]: (fact: Extract<Fact, { readonly is: K }>) => string };

const grams = (g: number): string => `${formatKg(g / 1000)} kg`;

const FACT_WORDS: Words = {
  shiftOpened: (f) => `Shift ${f.shift} opened`,
  shiftEnded: () => 'Shift ended',
  commandRefused: (f) => `Refused to ${commandWords(f.command)}: ${f.because.join('; ')}`,
  commandDone: (f) => `Done: ${commandWords(f.command)}`,
  controlsTaken: () => 'Controls taken',
  controlsAskedFor: () => 'Controls asked for',
  controlsReleased: () => 'Controls released',
  standInSwitched: (f) => (f.skill === null ? 'Stand-in switched off' : `Stand-in switched on: ${f.skill}`),
  orderChosen: (f) => `Order ${f.order} chosen: ${f.mix} to bay ${f.bay}`,
  batchStarted: (f) => `Batch ${f.batch} started: ${f.mix} version ${f.mixVersion}, lot ${f.lot}`,
  stepEntered: (f) => `Batch ${f.batch}: ${plainWords(f.step)}`,
  procedureEntered: (f) => `Batch ${f.batch} ${plainWords(f.state)}${f.why === '' ? '' : `: ${f.why}`}`,
  partWeighed: ({ part }) =>
    `${capital(part.material)}: ${formatKg(part.weighedKg)} kg of ${formatKg(part.targetKg)} kg weighed${
      part.accepted === null ? '' : `, accepted by ${part.accepted.by.person}: ${part.accepted.reason}`
    }`,
  weightOut: (f) =>
    `${capital(f.material)} out of tolerance: ${formatKg(f.weighedKg)} kg of ${formatKg(f.targetKg)} kg`,
  scaleZeroed: (f) =>
    `Scale of the ${f.scale === 'hopper' ? 'weigh hopper' : 'binder bucket'} set to zero from ${formatKg(f.fromKg)} kg`,
  emptyConfirmed: (f) => `Pug mill looked into and found empty, its motor at ${f.motorA.toFixed(1)} A`,
  lookConfirmed: (f) => `Batch ${f.batch} looked at and confirmed, ${Math.round(f.coatedPct)} % coated`,
  mixExtended: (f) => `Batch ${f.batch} mixed longer`,
  batchDischarged: (f) => `Batch ${f.batch} discharged: ${grams(f.grams)} into lot ${f.lot}, bay ${f.bay}`,
  batchDumped: (f) => `Batch ${f.batch} dumped: ${grams(f.grams)} to waste: ${f.reason}`,
  massMoved: (f) => `${grams(f.grams)} of ${f.material} from ${placeWords(f.from)} to ${placeWords(f.to)}`,
  lotOpened: (f) => `Lot ${f.lot} opened: ${f.mix} version ${f.mixVersion}, bay ${f.bay}`,
  lotClosed: (f) =>
    `Lot ${f.lot} closed${f.short ? ' short' : ''} at ${formatTonnes(f.grams / 1000)}: ${f.why}`,
  samplesPlanned: (f) =>
    `Sampling plan of lot ${f.lot} sealed: ${f.samples.length} samples by specification ${f.specification}, commitment ${f.commitment.slice(0, 16)}…`,
  sampleDue: (f) =>
    `Sample ${f.sample}${f.test === undefined ? '' : ` (${f.test})`} of lot ${f.lot} falls due${f.atKg === undefined ? '' : ` at ${formatTonnes(f.atKg)}`}`,
  sampleMissed: (f) => `Sample ${f.sample} of lot ${f.lot} missed: ${f.why}`,
  samplePlanOpened: (f) =>
    `Sampling plan of lot ${f.lot} opened: samples at ${f.atKg.map((kg) => formatTonnes(kg)).join(', ')}`,
  sampleTaken: (f) => `Sample ${f.sample} of lot ${f.lot} taken from batch ${f.batch}`,
  cautionsAcknowledged: (f) => `Cautions acknowledged for drying campaign ${f.campaign}`,
  campaignStep: (f) => `Drying campaign ${f.campaign}: ${plainWords(f.step)}`,
  chargeDried: (f) =>
    `Charge ${f.charge} dried: ${grams(f.inGrams)} in, ${grams(f.outGrams)} out at ${Math.round(f.outC)} °C`,
  burnerEntered: (f) => `Burner: ${plainWords(f.state)}`,
  heaterEntered: (f) => `Oil heater: ${plainWords(f.state)}`,
  tripLatched: (f) => `Trip latched: ${f.causes.join(', ')}`,
  tripReset: () => 'Trip reset',
  elementHeld: (f) => `${capital(plainWords(f.element))} held: ${f.because.join(', ')}`,
  alarmChanged: (f) =>
    `Alarm “${spacedWords(f.alarm)}”: ${f.state}${f.reason === null ? '' : ` (${f.reason})`}`,
  moistureSet: (f) => `Bin ${f.bin}: weighed for ${f.now} % moisture, was ${f.was} % (${f.source})`,
  binRefillAsked: (f) => `Bin ${f.bin}: refill asked for`,
  faultInjected: (f) => `Fault put in: ${tagWords(f.target)}, ${f.fault}`,
  faultCleared: (f) => `Fault cleared: ${tagWords(f.target)}`,
  emergencyStopPressed: () => 'Emergency stop pressed',
  emergencyStopReleased: () => 'Emergency stop released',
  causeProved: (f) => `Proof test of ${f.cause} ${f.result}${f.remark === '' ? '' : `: ${f.remark}`}`,
  inhibitAsked: (f) => `Asked to inhibit ${f.cause} for ${f.minutes} min: ${f.reason}`,
  causeInhibited: (f) =>
    `${f.cause} inhibited for ${f.minutes} min, asked for by ${f.askedBy.person}: ${f.reason}`,
  inhibitEnded: (f) => `Inhibit of ${f.cause} ended: ${f.why}`,
  hotWorkOpened: (f) => `Hot work permit ${f.permit} opened for ${f.minutes} min, ${f.where}: ${f.reason}`,
  hotWorkClosed: (f) => `Hot work permit ${f.permit} closed`,
  deliveryBegun: (f) =>
    `Delivery ${f.ticket} begun: ${formatKg(f.kg)} kg of ${f.product} into the ${f.tank} tank`,
  deliveryConfirmed: (f) => `Delivery into the ${f.tank} tank confirmed as ${f.product}`,
  deliveryEnded: (f) => `Delivery into the ${f.tank} tank ended`,
  tankIdentified: (f) => `Contents of the ${f.tank} tank identified as ${f.product}: ${f.reason}`,
  tankDoubted: (f) => `Contents of the ${f.tank} tank in doubt: ${f.why}`,
  calibrationLost: (f) => `Vapour detector out of calibration: ${f.why}`,
};

/** A fact this console does not know yet is shown by its name, never hidden. */
export function factSentence(fact: Fact): string {
  const words = FACT_WORDS[fact.is] as ((fact: Fact) => string) | undefined;
  return words === undefined ? fact.is : words(fact);
}

const BOOK_WORDS: { readonly [B in BookName]: string } = {
  lab: 'Lab',
  patches: 'Patch lists',
  mixes: 'Mixes',
  stock: 'Stock',
  recalls: 'Recalls',
};

/** A fact of lab or yard, with the book it stands in. */
export const ledgerSentence = (book: BookName, fact: LedgerFact): string =>
  `${BOOK_WORDS[book]}: ${plainDays(wordsOfFact(book, fact))}`;

/** Who did it: a person's id, or "" when the line did it by itself. */
export function factBy(fact: Fact): string {
  const by = 'by' in fact ? fact.by : null;
  return by === null || by.role === 'line' ? '' : by.person;
}
