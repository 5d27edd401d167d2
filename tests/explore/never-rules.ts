/** What must never happen, one ID each. The models check these words; the tests quote the IDs. */
import { NEVER_MORE } from './never-more.ts';

export const NEVER = {
  'NR-01': 'never a pilot or fuel output together with a way opened for solvent-bearing binder',
  'NR-02': 'never a pilot or fuel output while bucket or pug mill may hold solvent-bearing binder',
  'NR-03': 'never a way opened for solvent-bearing binder unless flame out, fuel shut and drum purged',
  'NR-04':
    'never binder into the pug mill without extraction, low vapour, detector, cool aggregate and window',
  'NR-05': 'never anything that burns or feeds let through while tripped, nor the hood fan stopped',
  'NR-06': 'never fuel or pilot outside pilot trial, main trial and running',
  'NR-07': 'never lit without a purge counted afresh and completed',
  'NR-08': 'a trip is left only by a person’s reset, with every cause cleared',
  'NR-09': 'a cause never stands while the interlock watches without tripping',
  'NR-10': 'a burner lockout is left only by a person’s reset, into a purge',
  'NR-11':
    'no dead state: from everywhere the safe and ready state can be reached, so every trip can be cleared',
  'NR-12': 'a tank coil is never open below its cover or above its limit',
  'NR-13': 'the oil is never fired without flow, above its limit, or while tripped',
  'NR-14': 'an oil heater lockout is left only by a person’s reset',
  'NR-15': 'offering signals as they stand always settles',
  'NR-16':
    'with honest sensors, never a flame in the drum while solvent-bearing binder is in bucket or pug mill',
  'NR-17': 'an alarm is normal or shows what stands: never forgotten, whatever was shelved or suppressed',
  'NR-18':
    'what the emergency stop stopped stays stopped until the trip is reset, whatever tripped before it',
  'NR-19': 'never a pilot output unless the binder valve is proved shut',
  'NR-20': 'a batch that does not run asks for nothing but a turning pug mill',
  'NR-21': 'a batch asks for the binder valve only while adding binder or dumping',
  'NR-22': 'no batch is discharged to a bay that nobody has looked at',
  'NR-23': 'no batch is forgotten: its step rests again only once it is booked',
  'NR-24': 'nothing is lit before the cautions are acknowledged and a person lights it',
  'NR-25': 'the hopper opens to the dryer only while the drum is charged',
  'NR-26': 'a held scale is fed by nothing but a top-up a person asked for',
  'NR-27':
    'a weight out of tolerance counts only once a person accepted it or it was topped up and judged again',
  'NR-28': 'a closed lot is never opened again',
  'NR-29': 'the controls fall free only when their holder lets go',
  'NR-30':
    'never cutback fed or binder opened past an overheated binder, a hot work permit or an unconfirmed tank, no binder or flame past an uncalibrated detector, no emulsion from an unconfirmed tank',
  'NR-31':
    'never a flame let through in vapour, without extraction or detector; never cutback fed past an open binder valve',
  'NR-32': 'what a lost supply stopped stays stopped when it comes back, until the trip is reset',
  'NR-33': 'never a tank coil let through while anything of its tank interlock stands against it',
  'NR-34': 'never the oil burner let through without flow or beside vapour at the vents',
  'NR-35': 'a tank asks for heat only while its tank interlock lets it',
  'NR-37':
    'fuel is asked for without a flame no longer than the trial for ignition and the flame-failure time allow',
  ...NEVER_MORE,
} as const;

export type NeverId = keyof typeof NEVER;
