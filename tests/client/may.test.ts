/** What a console says before it asks: who, which role, who holds the controls. */
import { describe, expect, it } from 'vitest';
import { holdsControls, type Standpoint, whyNot, whyNotRun } from '../../client/live/may.ts';
import { type Person, ROLES } from '../../machines/scenario/people.schema.ts';
import { whyRoleMayNot } from '../../server/runner/run-roles.ts';

const operator: Person = { id: 'ada', name: 'Ada Reed', role: 'operator' };
const auditor: Person = { id: 'ruth', name: 'Ruth Lyle', role: 'auditor' };
const held = (console: string) => ({
  holder: { person: 'milo', name: 'Milo Oakes', role: 'supervisor' as const, console },
  askedBy: null,
  standIn: null,
});
const EMPTY = { holder: null, askedBy: null, standIn: null };
const at = (more: Partial<Standpoint>): Standpoint => ({
  me: operator,
  seat: EMPTY,
  consoleId: 'here',
  ...more,
});

describe('why not', () => {
  it('asks for a person first', () => expect(whyNot('hold', at({ me: null }))[0]).toContain('who you are'));

  it('names the role and whom it is for', () => {
    const [why] = whyNot('hold', at({ me: auditor, seat: held('here') }));
    expect(why).toBe('Ruth Lyle is an auditor; this is for: operator, supervisor, trainee, trainer.');
  });

  it('says to take free controls, or to ask whoever has them', () => {
    expect(whyNot('hold', at({}))[0]).toContain('Nobody has the controls');
    expect(whyNot('hold', at({ seat: held('there') }))[0]).toContain(
      'Milo Oakes has the controls. Ask for them',
    );
  });

  it('says that a stand-in can be taken over from', () => {
    const seat = { ...held('stand-in'), standIn: 'good' as const };
    expect(whyNot('hold', at({ seat }))[0]).toContain('A stand-in runs the line. Take the controls');
  });

  it('lets the holder, and what needs no controls, through', () => {
    expect(whyNot('hold', at({ seat: held('here') }))).toEqual([]);
    expect(whyNot('emergencyStop', at({ seat: held('there') }))).toEqual([]);
    expect(whyNot('takeSample', at({}))).toEqual([]);
  });

  it('the seat belongs to the console, not to the person alone', () => {
    expect(holdsControls(at({ seat: held('here') }))).toBe(true);
    expect(holdsControls(at({ seat: held('there') }))).toBe(false);
    expect(holdsControls(at({ me: null, seat: held('here') }))).toBe(false);
  });
});

it('says who may change how fast the plant runs, and open a shift, as the server does', () => {
  const asked = [
    ['changing how fast the plant runs', { do: 'pause' }],
    ['opening a shift', { do: 'nextShift' }],
  ] as const;
  for (const role of ROLES)
    for (const [what, command] of asked)
      expect(whyNotRun({ id: 'x', name: 'X', role }, what).length > 0).toBe(
        whyRoleMayNot(role, command) !== null,
      );
  expect(whyNotRun(null, 'opening a shift')).toEqual(['Say who you are first (top of the page).']);
});
