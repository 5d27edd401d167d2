/** Why a command would be refused now, in words a person can act on. Empty: it would be carried out. */
import { mayGive, PERMISSIONS, PLAN_COMMANDS, WITHOUT_CONTROLS } from '../people/permissions.ts';
import type { Command, CommandEnvelope } from './commands.ts';
import type { Line } from './line.types.ts';
import { careReasons } from './refusals-care.ts';
import { planReasons } from './refusals-plan.ts';
import { stateReasons } from './refusals-state.ts';

type By = CommandEnvelope['by'];

const hasControls = (line: Line, by: By): boolean =>
  line.seat.holder !== null &&
  line.seat.holder.console === by.console &&
  line.seat.holder.person === by.person;

const seatReasons = (line: Line, command: Command, by: By): string[] => {
  const holder = line.seat.holder;
  switch (command.do) {
    case 'takeControls':
      if (holder === null || holder.console === 'stand-in') return [];
      if (holder.console === by.console && holder.person === by.person)
        return ['You have the controls already.'];
      return ['Somebody else has the controls: ask for them.'];
    case 'askForControls':
      if (holder === null) return ['Nobody has the controls: take them.'];
      if (hasControls(line, by)) return ['You have the controls already.'];
      return line.seat.askedBy !== null && line.seat.askedBy.console !== by.console
        ? ['Another console has asked already.']
        : [];
    case 'handOver':
      if (line.seat.askedBy === null) return ['Nobody has asked for the controls.'];
      return [line.seat.askedBy.console, line.seat.askedBy.person].includes(command.to)
        ? []
        : [`${command.to} has not asked for the controls.`];
    case 'declineRequest':
      return line.seat.askedBy === null ? ['Nobody has asked for the controls.'] : [];
    case 'standIn':
      return holder === null || holder.console === 'stand-in' || hasControls(line, by)
        ? []
        : ['Somebody else has the controls: ask for them.'];
    default:
      if (WITHOUT_CONTROLS.includes(command.do)) return [];
      if (hasControls(line, by)) return [];
      return [
        holder === null ? 'Take the controls first.' : 'Another console has the controls: ask for them.',
      ];
  }
};

/** All reasons against a command from this person: role, seat and state. */
export const reasonsAgainst = (line: Line, command: Command, by: By): string[] => {
  if (PLAN_COMMANDS.includes(command.do)) return planReasons(line, command, by);
  if (!mayGive(by.role, command.do))
    return [
      `${/^[aeiou]/.test(by.role) ? 'An' : 'A'} ${by.role} may not do this; it is for: ${PERMISSIONS[command.do].join(', ')}.`,
    ];
  const seat = seatReasons(line, command, by);
  if (seat.length > 0) return seat;
  if (
    line.ended &&
    ![
      'takeControls',
      'askForControls',
      'handOver',
      'releaseControls',
      'declineRequest',
      'acknowledge',
      'takeSample',
      // What makes the plant safer is never refused for the hour.
      'emergencyStop',
      'releaseEmergencyStop',
      'putOutBurner',
      'endCampaign',
      'liftInhibit',
      'closeHotWork',
      'endDelivery',
      'proveCause',
    ].includes(command.do)
  )
    return ['The shift has ended.'];
  return careReasons(line, command, by) ?? stateReasons(line, command);
};
