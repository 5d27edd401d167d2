/** Who may pause the plant, change its speed or open the next shift. */
import type { RunCommand } from '../../machines/live/protocol.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';

const RUN_ROLES: readonly Role[] = ['operator', 'supervisor', 'trainer', 'trainee'];

/** Words against it, or null. */
export const whyRoleMayNot = (role: Role, command: RunCommand): string | null => {
  if (RUN_ROLES.includes(role)) return null;
  const what = command.do === 'nextShift' ? 'open a shift' : 'change how fast the plant runs';
  return `${/^[aeiou]/.test(role) ? 'An' : 'A'} ${role} may not ${what}; it is for: ${RUN_ROLES.join(', ')}.`;
};
