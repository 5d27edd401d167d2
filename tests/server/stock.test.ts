/** Levels of tanks and bins go from shift to shift by the record; a load's ticket is one page, whatever stands on it. */
import { describe, expect, it } from 'vitest';
import type { EntryContent } from '../../machines/record/entry.ts';
import type { LoadTicket } from '../../machines/yard/stock/ticket.ts';
import { loadTicketPdf } from '../../server/reports/pdf/load-ticket.ts';
import { keepScenarios, nextShiftOf } from '../../server/runner/next-shift.ts';
import { openSqliteStore } from '../../server/store/sqlite.ts';
import { sealAll } from '../record/samples.ts';
import { readPdf } from '../reports/support/pdf-text.ts';
import { scenarioOf } from '../yard/stock/stock-yard.ts';
import { scratchFolder } from './support/tools.ts';

const by = { person: 'pell', role: 'storekeeper' } as const;
const moved = (grams: number, material: string): EntryContent => ({
  kind: 'fact',
  body: { tick: 5, fact: { is: 'massMoved', from: 'materials', to: 'mixer', grams, material } },
});

describe('levels', () => {
  it('a shift leaves, weighed out and adjusted, are what the next one and its simulated plant begin with', async () => {
    const store = await openSqliteStore(scratchFolder());
    const files = scenarioOf();
    const first = await nextShiftOf(store, files);
    expect(first.scenario.shift.levels).toBeUndefined();
    await keepScenarios(store, files, first);
    const adjusted: EntryContent = {
      kind: 'ledger',
      body: {
        id: 'a-command-1',
        do: 'dipTank',
        by,
        at: '2026-04-14T10:00:00',
        book: 'stock',
        fact: {
          is: 'storeAdjusted',
          movement: 'A-260414-1',
          store: 'tank:cutback',
          was: 8_000_000,
          now: 7_500_500,
          reason: 'by the dip',
        },
      },
    };
    await store.append(
      sealAll([
        { kind: 'opening', body: first.opening },
        moved(51_700, 'emulsion'),
        moved(1_311_000, 'Chips'),
        adjusted,
      ]),
    );
    const { scenario } = await nextShiftOf(store, files);
    expect(scenario.shift.levels).toEqual({
      tanksKg: { emulsion: 9448.3, cutback: 7500.5 },
      binsKg: [14_689, 16_000, 12_000],
    });
    expect(scenario.plant.tanks.emulsion.startMassKg).toBe(9448.3);
    expect(scenario.plant.tanks.cutback.startMassKg).toBe(7500.5);
    expect(scenario.plant.bins[0]?.startKg).toBe(14_689);
    await store.close();
  });
});

const ticket = (lots: number, patches: number): LoadTicket => ({
  load: 'L-260414-1',
  plant: 'Larkmoor Road Yard',
  mixName: 'Cutback patch mix',
  at: '2026-04-14T11:30:00',
  draft: false,
  code: 'Load L-260414-1',
  facts: [['Mix', 'Cutback patch mix (cutback)']],
  weights: [['Net', '2510.0 kg']],
  lots: Array.from({ length: lots }, (_, i) => ({
    lot: `260414-${i + 1}`,
    kg: 12.345,
    from: 'Bay 2',
    released: 'accepted by the lab',
  })),
  patches: Array.from({ length: patches }, (_, i) => ({
    patch: `PL-260414-1/${i + 1}`,
    where:
      'a very long name of a road that goes on and on past every house, tree and kilometre stone there is',
    kg: 100,
  })),
  cautions: ['No flame.', 'x '.repeat(400)],
});

describe('a load ticket', () => {
  it('is one page with two lots or with 40 lots and 400 patches, and says what it leaves out', async () => {
    for (const [lots, patches] of [
      [2, 3],
      [40, 400],
    ] as const) {
      const bytes = await loadTicketPdf(ticket(lots, patches));
      const { pages } = readPdf(bytes);
      expect(pages).toHaveLength(1);
      const words = pages.flat().join(' ');
      expect(words).toContain('L-260414-1');
      expect(words).toContain('12.345');
      expect(words.includes('more lots')).toBe(lots > 8);
      expect(words.includes('more, on the sheet of the patch list')).toBe(patches > 22);
      expect((await loadTicketPdf(ticket(lots, patches))).equals(bytes)).toBe(true);
    }
  });

  it('that is not weighed out says that the load may not leave', async () => {
    const { pages } = readPdf(await loadTicketPdf({ ...ticket(0, 1), draft: true }));
    expect(pages.flat().join(' ')).toContain('NOT WEIGHED OUT');
  });
});
