/** The patches book at a desk of its own: what is asked of it, told by it, and heard by it again. */
import { expect } from 'vitest';
import type { Fact } from '../../machines/line/facts.ts';
import type { Heard } from '../../machines/record/book.types.ts';
import type { Role } from '../../machines/scenario/people.schema.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';
import { patchesBook } from '../../machines/yard/patches/book.ts';
import { patchesCommandSchema } from '../../machines/yard/patches/commands.ts';
import type { PatchesFact } from '../../machines/yard/patches/facts.ts';
import type { PatchesOthers } from '../../machines/yard/patches/others.ts';
import type { Measured } from '../../machines/yard/patches/patch.types.ts';
import type { PatchesState } from '../../machines/yard/patches/state.ts';
import { scenarioOrError } from '../../server/scenarios/load.ts';

export const AT = '2026-04-14T06:10:00';
export const SCENARIO: Scenario = scenarioOrError('scenarios/shifts/plain-mixes.yaml');
export const BY = { person: 'pell', role: 'storekeeper' as Role };
export const hole = (change: Partial<Measured> = {}): Measured => ({
  place: 'Mill Lane 4',
  route: 'North',
  lengthM: 0.9,
  widthM: 0.5,
  depthMm: 60,
  baseReached: false,
  compactedBy: 'hand rammer',
  surface: 'bituminous',
  ...change,
});

/** A book as it stands in the record: every fact is put through JSON, as the record does. */
export class Desk {
  state: PatchesState = patchesBook.empty;
  others: PatchesOthers = {};
  seq = 0;
  said: PatchesFact[] = [];
  hear(heard: Record<string, unknown>, at = AT): void {
    this.seq += 1;
    this.state = patchesBook.hear(this.state, { seq: this.seq, shift: 1, at, ...heard } as Heard);
  }
  open(change: Partial<Scenario['shift']> = {}): void {
    this.hear({ from: 'opening', scenario: { ...SCENARIO, shift: { ...SCENARIO.shift, ...change } } });
  }
  line(fact: Partial<Fact> & { is: string }): void {
    this.hear({ from: 'line', fact });
  }
  stock(fact: object): void {
    this.hear({ from: 'stock', by: BY, fact });
  }
  ask(command: unknown, at = AT): readonly string[] | null {
    const parsed = patchesCommandSchema.safeParse(command);
    if (!parsed.success) return parsed.error.issues.map(({ message }) => message);
    const told = patchesBook.answer(this.state, { command: parsed.data, by: BY, at }, this.others);
    if (!told.ok) return told.because;
    for (const fact of JSON.parse(JSON.stringify(told.facts)) as PatchesFact[]) {
      this.said.push(fact);
      this.hear({ from: 'patches', by: BY, fact }, at);
    }
    return null;
  }
  take(
    patches: readonly Measured[] = [hole(), hole({ route: 'South' }), hole({ place: 'Fell Road' })],
  ): string {
    expect(
      this.ask({
        do: 'takeList',
        name: 'Week 16',
        source: { how: 'pasted', file: null, leftOut: 0 },
        patches,
      }),
    ).toBeNull();
    return Object.keys(this.state.lists).at(-1) ?? '';
  }
  order(list: string, change: object = {}): readonly string[] | null {
    return this.ask({
      do: 'makeOrder',
      lists: [list],
      route: null,
      mix: 'emulsion-patch',
      neededBy: '2026-04-17',
      rounding: 'batches',
      useStock: true,
      ...change,
    });
  }
}
