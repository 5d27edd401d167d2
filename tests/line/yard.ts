/** A driver for stories: a whole world turned by hand, with people at consoles and expectations in the charts' own words. */
import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { parse } from 'yaml';
import type { Command, CommandEnvelope } from '../../machines/line/commands.ts';
import type { Fact } from '../../machines/line/facts.ts';
import type { ChartId, Line } from '../../machines/line/line.types.ts';
import { chartValue } from '../../machines/line/lookup.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import { mixSchema } from '../../machines/scenario/mix.schema.ts';
import { peopleSchema, type Role } from '../../machines/scenario/people.schema.ts';
import { plantSchema } from '../../machines/scenario/plant.schema.ts';
import { plantThisMorning, type Scenario, shiftSchema } from '../../machines/scenario/shift.schema.ts';
import { advance, createWorld, viewOf, type World } from '../../machines/world/world.ts';

const read = (name: string): unknown =>
  parse(readFileSync(new URL(`../../scenarios/${name}`, import.meta.url), 'utf8'));

/** A shipped shift with all it names; `change` alters the shift before it is checked. */
export const scenarioOf = (name: string, change: Record<string, unknown> = {}): Scenario => {
  const shift = shiftSchema.parse({ ...(read(`shifts/${name}.yaml`) as object), ...change });
  return {
    shift,
    plant: plantThisMorning(plantSchema.parse(read(shift.plant)), shift),
    mixes: shift.mixes.map((mix) => mixSchema.parse(read(mix))),
    people: peopleSchema.parse(read(shift.people)).people,
  };
};

export type Told = Fact & { readonly tick: number };

export class TestYard {
  world: World;
  readonly facts: Told[] = [];
  #given = 0;
  #waiting: CommandEnvelope[] = [];

  constructor(scenario: Scenario) {
    this.world = createWorld(scenario);
    this.tick();
  }

  get line(): Line {
    return this.world.line;
  }

  tick(): readonly { readonly id: string; readonly answer: Answer }[] {
    const advanced = advance(this.world, this.#waiting);
    this.#waiting = [];
    this.world = advanced.world;
    for (const fact of advanced.facts) this.facts.push({ ...fact, tick: this.world.tick });
    return advanced.answers;
  }

  run(seconds: number): this {
    for (let i = 0; i < seconds * 10; i += 1) this.tick();
    return this;
  }

  /** Turns until the condition holds; fails after so many minutes of plant time. */
  until(holds: (line: Line) => boolean, minutes = 15): this {
    for (let i = 0; i < minutes * 600; i += 1) {
      if (holds(this.line)) return this;
      this.tick();
    }
    const { line } = this;
    const charts = ['batch', 'campaign', 'burner', 'aggregateWeigher', 'binderWeigher', 'oilHeater'] as const;
    throw new Error(
      `not reached in ${minutes} min: ${JSON.stringify({
        charts: charts.map((id) => [id, this.value(id)]),
        seat: line.seat,
        books: line.books,
        campaign: line.campaign,
        weigher: line.weighers.aggregateWeigher,
        refusals: line.refusals.slice(0, 3),
        faults: line.faults,
        on: Object.entries(line.signals).flatMap(([name, on]) => (on ? [name] : [])),
        readings: line.readings,
      })}`,
    );
  }

  value(chart: ChartId): unknown {
    return chartValue(this.line, chart);
  }

  step(): string {
    return (this.value('batch') as { step: string }).step;
  }

  procedure(): string {
    return (this.value('batch') as { procedure: string }).procedure;
  }

  untilStep(step: string, minutes = 15): this {
    return this.until(() => this.step() === step, minutes);
  }

  expectToBeIn(chart: ChartId, value: unknown): this {
    expect(this.value(chart)).toEqual(value);
    return this;
  }

  /** Gives a command and turns one tick; the answer. */
  give(command: Command, as: Role = 'operator', console = 'console-1'): Answer {
    const person = this.world.scenario.people.find((one) => one.role === as)?.id ?? as;
    this.#given += 1;
    const id = `given-${String(this.#given).padStart(5, '0')}`;
    this.#waiting.push({ id, by: { person, role: as, console }, command });
    const answer = this.tick().find((one) => one.id === id)?.answer;
    if (answer === undefined) throw new Error(`no answer to ${id}`);
    return answer;
  }

  /** Gives a command that must be carried out. */
  does(command: Command, as: Role = 'operator', console = 'console-1'): this {
    expect(this.give(command, as, console)).toEqual({ ok: true });
    return this;
  }

  /** Gives a command that must be refused; the reasons. */
  refused(command: Command, as: Role = 'operator', console = 'console-1'): readonly string[] {
    const answer = this.give(command, as, console);
    if (answer.ok) throw new Error(`${command.do} was carried out`);
    expect(answer.because.length).toBeGreaterThan(0);
    return answer.because;
  }

  told<N extends Fact['is']>(name: N): Extract<Told, { is: N }>[] {
    return this.facts.filter((fact): fact is Extract<Told, { is: N }> => fact.is === name);
  }

  /** Seconds the console would show now as the forecast. */
  forecastS(): number {
    const { countdown } = viewOf(this.world).now;
    if (countdown === null || countdown.way !== 'forecast') throw new Error('nothing is forecast');
    return countdown.seconds;
  }

  /** Books close to the gram at every moment. */
  expectBooksToClose(): this {
    const sum = Object.values(this.line.books).reduce<number>((total, grams) => total + (grams ?? 0), 0);
    expect(sum).toBe(0);
    return this;
  }
}

/** A yard with the operator in the seat, ten seconds after the start so that fans have run up. */
export const seatedYard = (name: string, change: Record<string, unknown> = {}): TestYard =>
  new TestYard(scenarioOf(name, change)).does({ do: 'takeControls' }).run(10);

/** A yard whose cutback campaign is dried and cooled, ready for batches; a short campaign of `batches`. */
export const driedYard = (batches = 2): TestYard => {
  const yard = seatedYard('cutback-day');
  yard.does({ do: 'startCampaign', batches }).does({ do: 'acknowledgeCautions' }).does({ do: 'lightBurner' });
  return yard.until(() => yard.value('campaign') === 'available', 90);
};
