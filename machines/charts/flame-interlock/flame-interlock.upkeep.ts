/**
 * How each requirement is kept honest: how often it is proved by test at the plant, whether an overdue test
 * raises an alarm, whether it may be inhibited for testing, and by which rules of tests/explore it is verified.
 *
 * Intervals are common practice, no source, but that burner safeguards are tested at least yearly (NFPA 86, from
 * memory). A plant file may shorten them. Causes that keep flame and cutback apart can never be inhibited.
 */
import { CAUSE_IDS, type InterlockCauseId } from './flame-interlock.causes.ts';

export type Upkeep = {
  readonly everyDays: number;
  readonly alarms: boolean;
  /** Longest inhibit for testing, minutes; 0 where none is allowed. */
  readonly inhibitMin: number;
  /** IDs of the never-rules that hold it. */
  readonly verifiedBy: readonly string[];
};

const YEAR = 365;
const HALF = 183;

const proved = (everyDays: number, verifiedBy: readonly string[], alarms = true): Upkeep => ({
  everyDays,
  alarms,
  inhibitMin: 0,
  verifiedBy,
});
const testable = (everyDays: number, verifiedBy: readonly string[], inhibitMin: number): Upkeep => ({
  ...proved(everyDays, verifiedBy),
  inhibitMin,
});

export const UPKEEP: { readonly [id in InterlockCauseId]: Upkeep } = {
  'FI-01': proved(HALF, ['NR-03', 'NR-16']),
  'FI-02': proved(YEAR, ['NR-03', 'NR-16']),
  'FI-03': proved(HALF, ['NR-04']),
  'FI-04': proved(HALF, ['NR-04']),
  'FI-05': proved(YEAR, ['NR-04']),
  'FI-06': proved(YEAR, ['NR-04']),
  'FI-07': proved(HALF, ['NR-04']),
  'FI-08': proved(HALF, ['NR-03', 'NR-16']),
  'FI-09': proved(YEAR, ['NR-05']),
  'FI-10': proved(YEAR, ['NR-31']),
  'FI-11': proved(YEAR, ['NR-02', 'NR-16']),
  'FI-12': proved(YEAR, ['NR-02', 'NR-16']),
  'FI-13': proved(YEAR, ['NR-19']),
  'FI-14': proved(HALF, ['NR-31']),
  'FI-15': proved(HALF, ['NR-31']),
  'FI-16': proved(HALF, ['NR-31']),
  'FI-17': proved(YEAR, ['NR-05']),
  'FI-18': proved(YEAR, ['NR-07']),
  'FI-19': proved(YEAR, ['NR-30']),
  'FI-20': proved(HALF, ['NR-30']),
  'FI-21': proved(YEAR, ['NR-30'], false),
  'FI-22': proved(YEAR, ['NR-30'], false),
  'FI-23': proved(YEAR, ['NR-30'], false),
  'FT-01': proved(YEAR, ['NR-05', 'NR-08', 'NR-09']),
  'FT-02': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-03': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-04': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-05': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-06': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-07': proved(HALF, ['NR-05', 'NR-08', 'NR-09', 'NR-18']),
  'FT-08': proved(YEAR, ['NR-05', 'NR-08', 'NR-09']),
  'FT-09': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-10': proved(HALF, ['NR-05', 'NR-08', 'NR-09']),
  'FT-11': proved(YEAR, ['NR-05', 'NR-08', 'NR-09', 'NR-32']),
  'FB-01': proved(YEAR, ['NR-06', 'NR-07']),
  'FB-02': proved(YEAR, ['NR-06', 'NR-10', 'NR-37']),
  'FB-03': proved(YEAR, ['NR-06', 'NR-10']),
  'FB-04': proved(YEAR, ['NR-06', 'NR-10', 'NR-37']),
  'FB-05': proved(YEAR, ['NR-06', 'NR-10']),
  'FB-06': proved(YEAR, ['NR-06', 'NR-10']),
  'FB-07': proved(YEAR, ['NR-06', 'NR-10']),
  'FB-08': proved(YEAR, ['NR-06', 'NR-16']),
  'TE-01': testable(YEAR, ['NR-12', 'NR-33'], 30),
  'TE-02': proved(YEAR, ['NR-12', 'NR-33']),
  'TE-03': proved(YEAR, ['NR-13', 'NR-33', 'NR-34']),
  'TE-04': proved(YEAR, ['NR-33'], false),
  'TE-05': testable(YEAR, ['NR-33'], 30),
  'TE-06': proved(HALF, ['NR-33', 'NR-34']),
  'TE-07': proved(YEAR, ['NR-33'], false),
  'TE-08': proved(YEAR, ['NR-33'], false),
  'TE-09': proved(YEAR, ['NR-33'], false),
  'TC-01': proved(YEAR, ['NR-12', 'NR-33']),
  'TC-02': proved(YEAR, ['NR-12', 'NR-33']),
  'TC-03': proved(YEAR, ['NR-13', 'NR-33', 'NR-34']),
  'TC-04': proved(YEAR, ['NR-33'], false),
  'TC-05': proved(YEAR, ['NR-33']),
  'TC-06': proved(HALF, ['NR-33', 'NR-34']),
  'TC-07': proved(YEAR, ['NR-33'], false),
  'TC-08': proved(YEAR, ['NR-33']),
  'TC-09': proved(YEAR, ['NR-33'], false),
};

export const INHIBITABLE: readonly InterlockCauseId[] = CAUSE_IDS.filter((id) => UPKEEP[id].inhibitMin > 0);
