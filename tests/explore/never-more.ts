/** More of what must never happen: what the guards, the outputs and the words of the charts are there for. */
export const NEVER_MORE = {
  'NR-38':
    'never a flame, nor a way opened for solvent-bearing binder, before the interlock has heard all its signals',
  'NR-39': 'never the hood fan stopped while the pug mill may hold solvent-bearing binder',
  'NR-40':
    'lighting is accepted only with no flame seen, fuel and binder valve proved shut, and no solvent-bearing binder about',
  'NR-41': 'a tank is told it may ask for heat only while all but the flow that comes with it is safe',
  'NR-42': 'nothing is said to be permitted unless the interlock watches',
  'NR-43': 'a trip is latched for a cause that stands, the gravest first',
  'NR-44':
    'what the emergency stop or a lost supply stopped is let go only by a reset that finds no cause standing',
  'NR-45': 'the steps of a batch move on only while it runs',
  'NR-46': 'a batch is idle or complete only with nothing of it left to do',
  'NR-47': 'a batch is dumped only at rest, held, stopped, aborted or at the look',
  'NR-48': 'every state drawn in a chart can be reached',
  'NR-49':
    'pilot, main fuel and dryer fan are asked for in their own states and no other: no fuel without its trial, no fire without the fan',
  'NR-50':
    'the oil is fired only while its flame is watched for, with the pump running; the pump stops only when off or failed',
  'NR-51': 'a coil is asked to open, and the tank stirred, only while it heats',
  'NR-52': 'a running batch opens the binder valve to add binder or to dump, and at no other time',
  'NR-53': 'a weigher feeds only while it fills; on a held batch only a top-up a person asked for',
  'NR-54': 'an alarm in service is suppressed just as long as its suppression stands',
  'NR-55':
    'the burner lights only after a purge, with no flame seen, fuel proved shut and air proved; it loses its fuel with its air, or a flame lost in the main trial, at once; and it comes to rest only through a purge',
  'NR-56': 'oil fuel is asked for without a flame no longer than its trial allows',
} as const;
