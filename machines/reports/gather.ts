/** One pass over the entries of a shift: everything the reports tell, brought together once. */
import type { Fact, Handover, Who } from '../line/facts.ts';
import type { Entry } from '../record/entry.ts';
import type { Gathered, GatheredBatch, GatheredLot } from './gathered.types.ts';
import { safetyWords } from './safety.ts';
import type { ShiftSource } from './source.ts';

type List<K extends keyof Gathered> = Gathered[K] extends readonly (infer T)[] ? T[] : never;

class Gatherer {
  batches: GatheredBatch[] = [];
  lots: GatheredLot[] = [];
  moves: List<'moves'> = [];
  alarms: List<'alarms'> = [];
  refusals: List<'refusals'> = [];
  trips: List<'trips'> = [];
  holds: List<'holds'> = [];
  stops: List<'stops'> = [];
  campaigns: List<'campaigns'> = [];
  charges: List<'charges'> = [];
  controls: List<'controls'> = [];
  commands: List<'commands'> = [];
  faults: List<'faults'> = [];
  notes: List<'notes'> = [];
  scales: List<'scales'> = [];
  safety: List<'safety'> = [];
  handover: Handover | null = null;
  opened = { shift: '', date: '', startsAt: '00:00' };
  openedBy: string | null = null;
  program = '';
  endedMs: number | null = null;
  endedBy: Who | null = null;
  lastMs = 0;
  first = 0;
  last = { seq: 0, hash: '', wall: '' };

  #running: GatheredBatch | null = null;
  #starter: Who | null = null;

  #batch(n: number): GatheredBatch | null {
    return this.batches.findLast((one) => one.n === n) ?? null;
  }

  #lot(id: string): GatheredLot | null {
    return this.lots.findLast((one) => one.id === id) ?? null;
  }

  entry(entry: Entry): void {
    if (this.first === 0) this.first = entry.seq;
    this.last = { seq: entry.seq, hash: entry.hash, wall: entry.wall };
    this.lastMs = Math.max(this.lastMs, entry.atMs);
    switch (entry.kind) {
      case 'opening':
        this.program = entry.body.program;
        this.openedBy = entry.body.openedBy ?? null;
        return;
      case 'note':
        this.notes.push({ atMs: entry.atMs, ...entry.body });
        return;
      case 'command': {
        const { command, by } = entry.body.envelope;
        this.commands.push({ atMs: entry.atMs, command: command.do, by });
        if (command.do === 'start') this.#starter = by;
        return;
      }
      case 'fact':
        this.#fact(entry.body.fact, entry.atMs, entry.seq);
        return;
      default:
    }
  }

  /** What reports do not tell, and what a later program may add, is passed over. */
  #fact(fact: Fact, atMs: number, seq: number): void {
    switch (fact.is) {
      case 'shiftOpened':
        this.opened = { shift: fact.shift, date: fact.date, startsAt: fact.startsAt };
        return;
      case 'shiftEnded':
        this.endedMs = atMs;
        this.endedBy = fact.by;
        this.handover = fact.handover ?? null;
        return;
      case 'batchStarted':
        this.#started(fact, atMs);
        return;
      case 'stepEntered': {
        const batch = this.#batch(fact.batch);
        const step = batch?.steps.at(-1);
        if (step !== undefined) step.toMs = atMs;
        batch?.steps.push({ step: fact.step, fromMs: atMs, toMs: null });
        return;
      }
      case 'procedureEntered':
        this.#batch(fact.batch)?.procedures.push({ atMs, state: fact.state, why: fact.why });
        return;
      case 'partWeighed':
        if (fact.batch !== null) this.#batch(fact.batch)?.parts.push(fact.part);
        return;
      case 'weightOut':
        if (fact.batch !== null) {
          const { material, targetKg, weighedKg } = fact;
          this.#batch(fact.batch)?.outs.push({ atMs, material, targetKg, weighedKg });
        }
        return;
      case 'lookConfirmed': {
        const batch = this.#batch(fact.batch);
        if (batch === null) return;
        batch.coatedPct = fact.coatedPct;
        batch.lookedBy = fact.by;
        return;
      }
      case 'mixExtended': {
        const batch = this.#batch(fact.batch);
        if (batch !== null) batch.extended += 1;
        return;
      }
      case 'batchDischarged':
        this.#discharged(fact, atMs);
        return;
      case 'batchDumped': {
        const batch = this.#batch(fact.batch);
        if (batch === null) return;
        batch.dumpedGrams += fact.grams;
        batch.dumped = { reason: fact.reason, by: fact.by };
        this.#end(batch, batch.grams > 0 ? 'broken off' : 'dumped', atMs);
        return;
      }
      case 'massMoved':
        this.#moved(fact, atMs);
        return;
      case 'lotOpened':
        this.lots.push({
          id: fact.lot,
          mix: fact.mix,
          mixVersion: fact.mixVersion,
          family: fact.family,
          bay: fact.bay,
          openedMs: atMs,
          closedMs: null,
          state: 'open',
          why: null,
          closedGrams: null,
          samples: (fact.samplesAtKg ?? []).map((atKg, i) => ({
            n: i + 1,
            test: '',
            atKg,
            dueMs: null,
            takenMs: null,
            batch: null,
            by: null,
          })),
        });
        return;
      case 'lotClosed': {
        const lot = this.#lot(fact.lot);
        if (lot === null) return;
        lot.closedMs = atMs;
        lot.state = fact.short ? 'closed short' : 'closed';
        lot.why = fact.why;
        lot.closedGrams = fact.grams;
        return;
      }
      case 'samplesPlanned': {
        const lot = this.#lot(fact.lot);
        if (lot === null) return;
        lot.samples = fact.samples.map(({ n, test }) => ({
          n,
          test,
          atKg: null,
          dueMs: null,
          takenMs: null,
          batch: null,
          by: null,
        }));
        return;
      }
      case 'samplePlanOpened':
        this.#lot(fact.lot)?.samples.forEach((sample, i) => {
          sample.atKg = fact.atKg[i] ?? sample.atKg;
        });
        return;
      case 'sampleDue': {
        const sample = this.#lot(fact.lot)?.samples.find((one) => one.n === fact.sample);
        if (sample === undefined) return;
        sample.dueMs = atMs;
        sample.atKg = fact.atKg ?? sample.atKg;
        return;
      }
      case 'sampleTaken': {
        const sample = this.#lot(fact.lot)?.samples.find((one) => one.n === fact.sample);
        if (sample !== undefined) Object.assign(sample, { takenMs: atMs, batch: fact.batch, by: fact.by });
        return;
      }
      case 'commandRefused':
        this.refusals.push({ seq, atMs, command: fact.command, by: fact.by, because: fact.because });
        return;
      case 'tripLatched':
        this.#tripped(fact.causes, atMs);
        return;
      case 'tripReset': {
        const trip = this.trips.at(-1);
        if (trip !== undefined && trip.resetMs === null)
          Object.assign(trip, { resetMs: atMs, resetBy: fact.by });
        return;
      }
      case 'elementHeld':
        this.holds.push({ atMs, element: fact.element, because: fact.because });
        return;
      case 'emergencyStopPressed':
      case 'emergencyStopReleased':
        this.stops.push({ atMs, pressed: fact.is === 'emergencyStopPressed', by: fact.by });
        return;
      case 'alarmChanged':
        this.alarms.push({ atMs, alarm: fact.alarm, state: fact.state, by: fact.by, reason: fact.reason });
        return;
      case 'campaignStep': {
        const last = this.campaigns.at(-1);
        const campaign = last?.n === fact.campaign ? last : { n: fact.campaign, fromMs: atMs, steps: [] };
        if (campaign !== last) this.campaigns.push(campaign);
        campaign.steps.push({ step: fact.step, atMs });
        return;
      }
      case 'chargeDried': {
        const { is: _is, ...charge } = fact;
        this.charges.push({ atMs, ...charge });
        return;
      }
      case 'controlsTaken':
        this.controls.push({ atMs, what: 'taken', by: fact.by, skill: null });
        return;
      case 'controlsReleased':
        this.controls.push({ atMs, what: 'released', by: fact.by, skill: null });
        return;
      case 'standInSwitched':
        this.controls.push({ atMs, what: 'stand-in', by: fact.by, skill: fact.skill });
        return;
      case 'faultInjected':
        this.faults.push({ atMs, target: fact.target, fault: fact.fault, by: fact.by });
        return;
      case 'faultCleared':
        this.faults.push({ atMs, target: fact.target, fault: null, by: fact.by });
        return;
      case 'scaleZeroed':
        this.scales.push({ atMs, scale: fact.scale, fromKg: fact.fromKg, by: fact.by });
        return;
      default: {
        const said = safetyWords(fact);
        if (said !== null) this.safety.push({ atMs, ...said });
      }
    }
  }

  #started(fact: Extract<Fact, { is: 'batchStarted' }>, atMs: number): void {
    const batch: GatheredBatch = {
      n: fact.batch,
      lot: fact.lot,
      mix: fact.mix,
      mixVersion: fact.mixVersion,
      startedBy: fact.by,
      askedBy: fact.by.role === 'line' ? this.#starter : fact.by,
      fromMs: atMs,
      toMs: null,
      outcome: 'running',
      bay: null,
      grams: 0,
      dumpedGrams: 0,
      dumped: null,
      mixC: null,
      mixedS: null,
      coatedPct: null,
      lookedBy: null,
      extended: 0,
      parts: [],
      outs: [],
      steps: [],
      procedures: [],
    };
    this.batches.push(batch);
    this.#running = batch;
  }

  #discharged(fact: Extract<Fact, { is: 'batchDischarged' }>, atMs: number): void {
    const batch = this.#batch(fact.batch);
    if (batch === null) return;
    batch.grams += fact.grams;
    batch.bay = fact.bay;
    batch.mixC = fact.mixC;
    batch.mixedS = fact.mixedS;
    batch.parts = [...fact.parts];
    this.#end(batch, 'discharged', atMs);
  }

  #end(batch: GatheredBatch, outcome: GatheredBatch['outcome'], atMs: number): void {
    batch.outcome = outcome;
    batch.toMs = atMs;
    const step = batch.steps.at(-1);
    if (step !== undefined) step.toMs = atMs;
    if (this.#running === batch) this.#running = null;
  }

  /** Water and anti-strip are metered straight into the mill: until the batch tells its own parts, the books name them. */
  #moved(fact: Extract<Fact, { is: 'massMoved' }>, atMs: number): void {
    const { from, to, grams, material } = fact;
    this.moves.push({ atMs, from, to, grams, material });
    if (this.#running === null || from !== 'materials' || to !== 'mixer') return;
    this.#running.parts.push({ material, targetKg: null, weighedKg: grams / 1000, accepted: null });
  }

  /** A trip that gains causes before it is reset is one trip. */
  #tripped(causes: readonly string[], atMs: number): void {
    const open = this.trips.at(-1);
    if (open === undefined || open.resetMs !== null)
      this.trips.push({ atMs, causes: [...causes], resetMs: null, resetBy: null });
    else open.causes = [...new Set([...open.causes, ...causes])];
  }
}

/** Everything of one shift, in order of time. Pure: the same entries give the same result. */
export const gather = (source: Pick<ShiftSource, 'entries'>): Gathered => {
  const gatherer = new Gatherer();
  for (const entry of source.entries) gatherer.entry(entry);
  return gatherer;
};
