/** Upkeep of the interlocks on a line: proof tests and when they fall due, calibration, inhibits, hot work. */
import {
  CAUSE_IDS,
  CAUSES,
  type InterlockCauseId,
} from '../charts/flame-interlock/flame-interlock.causes.ts';
import { UPKEEP } from '../charts/flame-interlock/flame-interlock.upkeep.ts';
import type { Scenario } from '../scenario/shift.schema.ts';
import { daysAfter } from './days.ts';
import type { Line, Maintenance, ProofMemo } from './line.types.ts';

/** The cause whose proof test is the calibration of the vapour detector. */
export const CALIBRATION = 'FI-20' as const;
/** A test is shown as due soon this many days ahead. Common practice, no source. */
const SOON_DAYS = 14;
/** Vapour shown so long in clean air, or nothing so long over mix that gives it off: the detector drifts, s. Common practice, no source. */
export const DRIFT_ENOUGH_S = 120;

/** What is on record when a shift begins: the plant file's round of tests, then the tests its shift file carries on. */
export const firstMaintenance = (scenario: Scenario): Maintenance => {
  const proofs: { [C in InterlockCauseId]?: ProofMemo } = {};
  const round = scenario.plant.maintenance;
  if (round !== undefined)
    for (const id of CAUSE_IDS)
      proofs[id] = {
        on: round.provedOn,
        result: 'passed',
        by: '',
        remark: 'Round of tests of the plant file',
      };
  for (const { cause, on, result, by, remark } of scenario.shift.proofs ?? [])
    proofs[cause as InterlockCauseId] = { on, result, by, remark };
  const { hotWork } = scenario.shift;
  if (hotWork === undefined) return { proofs, inhibits: {}, permit: null, permits: 0, drift: null };
  // Its time went by with the shift that opened it; only a person can say that the work is over.
  const { where, reason, by } = hotWork;
  const permit = {
    n: 1,
    where,
    reason,
    by: { person: by, role: 'line' as const },
    openedTick: 0,
    untilTick: 0,
  };
  return { proofs, inhibits: {}, permit, permits: 1, drift: null };
};

/** Days between proof tests of a cause at this plant. */
export const everyDays = (scenario: Scenario, id: InterlockCauseId): number =>
  scenario.plant.maintenance?.everyDays[id] ?? UPKEEP[id].everyDays;

export type ProofStanding = {
  readonly id: InterlockCauseId;
  readonly everyDays: number;
  readonly last: ProofMemo | null;
  readonly dueOn: string | null;
  readonly standing: 'proved' | 'due soon' | 'overdue' | 'failed' | 'no record';
};

const standingOf = (scenario: Scenario, maintenance: Maintenance, id: InterlockCauseId): ProofStanding => {
  const every = everyDays(scenario, id);
  const last = maintenance.proofs[id] ?? null;
  if (last === null) return { id, everyDays: every, last, dueOn: null, standing: 'no record' };
  const today = scenario.shift.date;
  const dueOn = daysAfter(last.on, every);
  const standing =
    last.result === 'failed'
      ? 'failed'
      : dueOn < today
        ? 'overdue'
        : dueOn <= daysAfter(today, SOON_DAYS)
          ? 'due soon'
          : 'proved';
  return { id, everyDays: every, last, dueOn, standing };
};

type Known = {
  readonly standings: readonly ProofStanding[];
  readonly calibrated: boolean;
  readonly overdueAlarms: boolean;
  readonly failed: boolean;
};
/** A maintenance value belongs to one line, so to one date: judged once, when it was changed. */
const known = new WeakMap<Maintenance, Known>();

const knownOf = (line: Line): Known => {
  let found = known.get(line.maintenance);
  if (found === undefined) {
    const standings = CAUSE_IDS.map((id) => standingOf(line.scenario, line.maintenance, id));
    const calibration = standings.find((one) => one.id === CALIBRATION)?.standing;
    found = {
      standings,
      calibrated: (calibration === 'proved' || calibration === 'due soon') && line.maintenance.drift === null,
      overdueAlarms: standings.some((one) => one.standing === 'overdue' && UPKEEP[one.id].alarms),
      failed: standings.some((one) => one.standing === 'failed'),
    };
    known.set(line.maintenance, found);
  }
  return found;
};

export const proofStandings = (line: Line): readonly ProofStanding[] => knownOf(line).standings;
/** The vapour detector is calibrated in time, passed, and has not been seen to drift since. */
export const isCalibrated = (line: Line): boolean => knownOf(line).calibrated;
export const isProofOverdue = (line: Line): boolean => knownOf(line).overdueAlarms;
export const isProofFailed = (line: Line): boolean => knownOf(line).failed;

/** An inhibit is in force: a second person has confirmed it and its time has not run out. */
export const isInhibited = (line: Line, id: InterlockCauseId): boolean => {
  const inhibit = line.maintenance.inhibits[id];
  return inhibit?.untilTick != null && line.tick < inhibit.untilTick;
};

const NO_CAUSES: readonly InterlockCauseId[] = [];

/** Inhibits in force. */
export const inhibitsInForce = (line: Line): readonly InterlockCauseId[] => {
  const { inhibits } = line.maintenance;
  for (const _one in inhibits)
    return (Object.keys(inhibits) as InterlockCauseId[]).filter((id) => isInhibited(line, id));
  return NO_CAUSES;
};

export const causeWords = (id: InterlockCauseId): string => `${id} ${CAUSES[id].cause}`;

export const withoutInhibit = (maintenance: Maintenance, id: InterlockCauseId): Maintenance => {
  const { [id]: _gone, ...inhibits } = maintenance.inhibits;
  return { ...maintenance, inhibits };
};
