/** A stock book to work with: the demo yard opened, batches made, commands put, every edge kept. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Fact } from '../../../machines/line/facts.ts';
import type { Heard } from '../../../machines/record/book.types.ts';
import { mixSchema } from '../../../machines/scenario/mix.schema.ts';
import { plantSchema } from '../../../machines/scenario/plant.schema.ts';
import { type Scenario, type Shift, shiftSchema } from '../../../machines/scenario/shift.schema.ts';
import { stockBook } from '../../../machines/yard/stock/book.ts';
import { type StockCommand, stockCommandSchema } from '../../../machines/yard/stock/commands.ts';
import type { StockOthers } from '../../../machines/yard/stock/others.types.ts';
import type { StockState } from '../../../machines/yard/stock/state.types.ts';
import type { Edge } from '../../../machines/yard/trace/edges.ts';

const read = (path: string): unknown =>
  parse(readFileSync(new URL(`../../../scenarios/${path}`, import.meta.url), 'utf8'));

const plant = plantSchema.parse({
  ...(read('plants/demo-yard.yaml') as object),
  yard: { pilesKg: [60_000, 60_000, 40_000], antiStripKg: 300 },
});
const mixes = ['emulsion-patch', 'cutback-patch'].map((id) => mixSchema.parse(read(`mixes/${id}.yaml`)));

export const scenarioOf = (change: Partial<Shift> = {}): Scenario => ({
  shift: { ...shiftSchema.parse(read('shifts/plain-mixes.yaml')), ...change },
  plant,
  mixes,
  people: [],
});

export const PELL = { person: 'pell', role: 'storekeeper' } as const;
export const TIBOR = { person: 'tibor', role: 'operator' } as const;

/** Everything after `do` with defaults filled in, as the server parses it. */
type Loose = { readonly do: StockCommand['do']; readonly [field: string]: unknown };

export class StockYard {
  state: StockState = stockBook.empty;
  readonly edges: Edge[] = [];
  readonly lab: { lots: Record<string, { state: string }> } = { lots: {} };
  patches: unknown = undefined;
  at = '2026-04-14T06:00:00';
  /** Commands done, by name: a random history shows what it reached. */
  readonly done: Record<string, number> = {};
  private seq = 0;
  private batch = 0;

  constructor() {
    this.open();
  }

  private hear(what: Record<string, unknown>): void {
    this.seq += 1;
    this.state = stockBook.hear(this.state, {
      seq: this.seq,
      shift: 1,
      at: this.at,
      ...what,
    } as unknown as Heard);
    this.edges.push(...this.state.edges.filter((edge) => edge.seq === this.seq));
  }

  open(change: Partial<Shift> = {}): void {
    const scenario = scenarioOf(change);
    this.at = `${scenario.shift.date}T${scenario.shift.startsAt}:00`;
    this.hear({ from: 'opening', scenario });
  }

  line(fact: Fact): void {
    this.hear({ from: 'line', fact });
  }

  /** One batch of the mix into the lot: parts in kg, all of it laid unless it is dumped. */
  makeBatch(lot: string, parts: Record<string, number>, dumpedKg = 0): void {
    this.batch += 1;
    this.line({ is: 'batchStarted', batch: this.batch, mix: 'x', mixVersion: 1, lot, by: TIBOR });
    const move = (from: string, to: string, kg: number, material: string): void =>
      this.line({ is: 'massMoved', from, to, grams: Math.round(kg * 1000), material } as Fact);
    let sumKg = 0;
    for (const [material, kg] of Object.entries(parts)) {
      sumKg += kg;
      if (material === 'water' || material === 'anti-strip') move('materials', 'mixer', kg, material);
      else {
        const via = material === 'emulsion' || material === 'cutback' ? 'bucket' : 'hopper';
        move('materials', via, kg, material);
        move(via, 'mixer', kg, via === 'bucket' ? 'binder' : 'aggregate');
      }
    }
    const laidKg = sumKg - dumpedKg;
    if (dumpedKg > 0) move('mixer', 'waste', dumpedKg, 'waste');
    if (laidKg <= 0) return;
    move('mixer', `lot:${lot}`, laidKg, 'mix');
    this.line({
      is: 'batchDischarged',
      batch: this.batch,
      lot,
      bay: this.state.lots[lot]?.bay ?? 1,
      grams: Math.round(laidKg * 1000),
      mixC: 18,
      mixedS: 80,
      parts: [],
    });
  }

  openLot(lot: string, mix: 'emulsion-patch' | 'cutback-patch', bay: number): void {
    const family = mix === 'emulsion-patch' ? 'emulsion' : 'cutback';
    this.line({ is: 'lotOpened', lot, mix, mixVersion: 1, family, bay, samplesAtKg: [] });
  }

  /** A fact of the stock's own, heard as the record has it. */
  tell(fact: { readonly is: string }): void {
    this.hear({ from: 'stock', by: PELL, fact });
  }

  get others(): StockOthers {
    return { lab: this.lab, patches: this.patches };
  }

  /** Puts a command; facts of a yes are heard. The reasons of a no, or [] when it was done. */
  put(command: Loose, by: { person: string; role: 'storekeeper' | 'operator' } = PELL): readonly string[] {
    const parsed = stockCommandSchema.parse(command);
    const told = stockBook.answer(this.state, { command: parsed, by, at: this.at }, this.others);
    if (!told.ok) return told.because;
    for (const fact of told.facts) this.hear({ from: 'stock', by, fact });
    this.done[parsed.do] = (this.done[parsed.do] ?? 0) + 1;
    return [];
  }
}
