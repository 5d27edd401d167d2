/** The one permission table: which role may give which command. */
import type { CommandName } from '../line/commands.ts';
import type { Role } from '../scenario/people.schema.ts';

const OPERATORS: readonly Role[] = ['operator', 'supervisor', 'trainee', 'trainer'];
const SUPERVISORS: readonly Role[] = ['supervisor', 'trainer'];
const SAMPLERS: readonly Role[] = ['quality officer', 'operator', 'supervisor', 'trainee', 'trainer'];
const YARD: readonly Role[] = ['storekeeper', 'operator', 'supervisor', 'trainee', 'trainer'];

export const PERMISSIONS: { readonly [K in CommandName]: readonly Role[] } = {
  takeControls: OPERATORS,
  askForControls: OPERATORS,
  handOver: OPERATORS,
  releaseControls: OPERATORS,
  declineRequest: OPERATORS,
  start: OPERATORS,
  hold: OPERATORS,
  restart: OPERATORS,
  stop: OPERATORS,
  abort: OPERATORS,
  reset: OPERATORS,
  confirmLook: OPERATORS,
  confirmEmpty: OPERATORS,
  extendMix: OPERATORS,
  topUp: OPERATORS,
  zeroScale: OPERATORS,
  acceptWeight: SUPERVISORS,
  dump: OPERATORS,
  acknowledgeCautions: OPERATORS,
  startCampaign: OPERATORS,
  lightBurner: OPERATORS,
  putOutBurner: OPERATORS,
  endCampaign: OPERATORS,
  resetBurner: OPERATORS,
  purgeDrum: OPERATORS,
  resetTrip: SUPERVISORS.concat('operator', 'trainee'),
  heatTank: OPERATORS,
  resetHeater: OPERATORS,
  acknowledge: OPERATORS,
  shelve: OPERATORS,
  unshelve: OPERATORS,
  outOfService: SUPERVISORS,
  returnToService: SUPERVISORS,
  takeSample: SAMPLERS,
  /** The sampling plan's own: no person may choose when a sample is due (machines/line/refusals.ts). */
  commitPlan: [],
  callSample: [],
  openPlan: [],
  chooseOrder: OPERATORS,
  refillBin: YARD,
  setMoisture: SAMPLERS,
  standIn: OPERATORS,
  injectFault: ['trainer', 'supervisor'],
  clearFault: ['trainer', 'supervisor'],
  emergencyStop: [...OPERATORS, 'quality officer', 'storekeeper', 'auditor'],
  releaseEmergencyStop: OPERATORS,
  endShift: OPERATORS,
  proveCause: OPERATORS,
  inhibitCause: OPERATORS,
  confirmInhibit: SUPERVISORS.concat('operator'),
  liftInhibit: OPERATORS,
  openHotWork: SUPERVISORS,
  closeHotWork: SUPERVISORS.concat('operator'),
  receiveDelivery: YARD,
  confirmDelivery: YARD,
  endDelivery: YARD,
  identifyTank: SUPERVISORS,
};

/** Commands anyone permitted may give without holding the controls. */
export const WITHOUT_CONTROLS: readonly CommandName[] = [
  'takeControls',
  'askForControls',
  'takeSample',
  'refillBin',
  'setMoisture',
  'emergencyStop',
  'injectFault',
  'clearFault',
  'acceptWeight',
  'standIn',
  'proveCause',
  'confirmInhibit',
  'liftInhibit',
  'openHotWork',
  'closeHotWork',
  'receiveDelivery',
  'confirmDelivery',
  'endDelivery',
  'identifyTank',
];

/** Commands of the sealed sampling plan. */
export const PLAN_COMMANDS: readonly CommandName[] = ['commitPlan', 'callSample', 'openPlan'];
/** Who the plan is on record as. */
export const SAMPLING_PLAN = { person: 'sampling plan', role: 'line', console: 'sampling-plan' } as const;

export const mayGive = (role: Role | 'line', command: CommandName): boolean =>
  role === 'line' ? PLAN_COMMANDS.includes(command) : PERMISSIONS[command].includes(role);
