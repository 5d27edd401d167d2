/** Who may do what: the seat, and the permission table. */
import { describe, expect, it } from 'vitest';
import { commandSchema } from '../../machines/line/commands.ts';
import { PERMISSIONS } from '../../machines/people/permissions.ts';
import { ROLES } from '../../machines/scenario/people.schema.ts';
import { scenarioOf, seatedYard, TestYard } from './yard.ts';

describe('the control seat', () => {
  it('is held by one console; another asks, and gets it when it is handed over', () => {
    const yard = seatedYard('emulsion-day');
    expect(yard.refused({ do: 'start', batches: 1 }, 'supervisor', 'console-2')[0]).toContain(
      'Another console',
    );
    expect(yard.refused({ do: 'takeControls' }, 'supervisor', 'console-2')[0]).toContain('ask for them');
    yard.does({ do: 'askForControls' }, 'supervisor', 'console-2').expectToBeIn('seat', 'asked');
    yard.does({ do: 'declineRequest' }).expectToBeIn('seat', 'held');
    yard.does({ do: 'askForControls' }, 'supervisor', 'console-2').does({ do: 'handOver', to: 'console-2' });
    expect(yard.line.seat.holder).toMatchObject({ person: 'halvard', console: 'console-2' });
    yard.does({ do: 'start', batches: 1 }, 'supervisor', 'console-2');
  });

  it('belongs to a person at a console, not to the console alone', () => {
    const yard = seatedYard('emulsion-day');
    expect(yard.refused({ do: 'start', batches: 1 }, 'trainee', 'console-1')[0]).toContain('controls');
  });

  it('is taken back from the stand-in at once', () => {
    const yard = seatedYard('emulsion-day').does({ do: 'standIn', skill: 'good' });
    expect(yard.line.seat.holder?.console).toBe('stand-in');
    yard.does({ do: 'takeControls' });
    expect(yard.line.seat).toMatchObject({ standIn: null, holder: { console: 'console-1' } });
  });

  it('refuses everything that moves the plant to nobody in the seat', () => {
    const yard = new TestYard(scenarioOf('emulsion-day'));
    expect(yard.refused({ do: 'start', batches: 1 })[0]).toContain('Take the controls');
  });
});

describe('the permission table', () => {
  const commands = commandSchema.options.map((option) => option.shape.do.value);

  it('has a row for every command and no other', () => {
    expect(Object.keys(PERMISSIONS).sort()).toEqual([...commands].sort());
  });

  it('lets an auditor do nothing but stop the plant in an emergency', () => {
    const yard = seatedYard('emulsion-day');
    for (const name of ['start', 'hold', 'endShift', 'takeSample'] as const) {
      const because = yard.refused(
        (name === 'start' ? { do: 'start', batches: 1 } : { do: name }) as never,
        'auditor',
        'console-7',
      );
      expect(because[0]).toContain('auditor may not');
    }
    yard.does({ do: 'emergencyStop' }, 'auditor', 'console-7');
    for (const roles of Object.values(PERMISSIONS)) for (const role of roles) expect(ROLES).toContain(role);
  });
});
