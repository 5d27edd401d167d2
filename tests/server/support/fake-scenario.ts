/** The smallest scenario the server needs: people, and a name for the shift. */
import type { PlantSpec } from '../../../machines/scenario/plant.schema.ts';
import type { Scenario } from '../../../machines/scenario/shift.schema.ts';

export const fakeScenario = (id = 'fake-day', seed = 7): Scenario => ({
  shift: {
    kind: 'shift',
    id,
    name: 'A day that is not there',
    plant: 'plants/none.yaml',
    people: 'people/none.yaml',
    mixes: ['mixes/none.yaml'],
    date: '2026-05-04',
    startsAt: '06:00',
    hours: 8,
    seed,
    weather: { startC: 10, warmestC: 20, rain: [] },
    moisture: [],
    tanksC: {},
    orders: [{ mix: 'none', tonnes: 10, bay: 1 }],
    incidents: [],
  },
  plant: { kind: 'plant', id: 'none', name: 'No yard' } as PlantSpec,
  mixes: [],
  people: [
    { id: 'kim', name: 'Kim', role: 'operator' },
    { id: 'noor', name: 'Noor', role: 'supervisor' },
    { id: 'ola', name: 'Ola', role: 'auditor' },
  ],
});
