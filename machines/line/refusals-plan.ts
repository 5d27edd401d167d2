/** Why the sealed sampling plan's own commands would be refused: no person gives them, and each comes at its one time. */
import { SAMPLING_PLAN } from '../people/permissions.ts';
import type { Command, CommandEnvelope } from './commands.ts';
import type { Line } from './line.types.ts';
import { openLot } from './lookup.ts';

type By = CommandEnvelope['by'];

const ofThePlan = (by: By): boolean =>
  by.role === SAMPLING_PLAN.role &&
  by.person === SAMPLING_PLAN.person &&
  by.console === SAMPLING_PLAN.console;

/** All reasons against a command of the sampling plan. */
export const planReasons = (line: Line, command: Command, by: By): string[] => {
  if (!ofThePlan(by))
    return [
      'The sampling plan alone says when samples are due: it was drawn and sealed when the lot was opened, so that nobody can choose the batch.',
    ];
  if (command.do === 'commitPlan') {
    const lot = openLot(line);
    if (lot === null || lot.id !== command.lot) return [`Lot ${command.lot} is not open.`];
    return lot.plan === null && lot.samples.length === 0 ? [] : [`Lot ${lot.id} has its samples planned.`];
  }
  if (command.do === 'callSample') {
    const lot = openLot(line);
    if (lot === null || lot.id !== command.lot) return [`Lot ${command.lot} is not open.`];
    if (lot.plan === null) return [`Lot ${lot.id} has no sealed plan.`];
    return lot.samples.some((one) => one.n === command.n && one.state === 'ahead')
      ? []
      : [`Sample ${command.n} of lot ${lot.id} is not ahead.`];
  }
  if (command.do !== 'openPlan') return ['This is no command of a sampling plan.'];
  const lot = line.lots.find((one) => one.id === command.lot);
  if (lot === undefined || lot.plan === null) return [`Lot ${command.lot} has no sealed plan.`];
  if (lot.state === 'open') return [`Lot ${lot.id} is still open: its plan stays sealed.`];
  if (lot.plan.opened) return [`The plan of lot ${lot.id} has been opened already.`];
  return command.atKg.length === lot.samples.length
    ? []
    : [`The plan of lot ${lot.id} has ${lot.samples.length} samples, not ${command.atKg.length}.`];
};
