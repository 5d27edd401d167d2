/** A drill as a training session drives it: pure functions over a run the session never looks into. */
import type { Intervention, SeatExtras, Trainee } from '../../machines/drills/run.types.ts';
import type { CommandEnvelope } from '../../machines/line/commands.ts';
import type { LineView } from '../../machines/line/view.types.ts';
import type { Answer } from '../../machines/live/protocol.ts';
import type { Attempt, DrillCard, PlannedIncident } from '../../machines/live/training.ts';
import type { Scenario } from '../../machines/scenario/shift.schema.ts';

export type Standings = { readonly score: number | null; readonly unsafe: number };

export type Outcome = Pick<Attempt, 'score' | 'passed' | 'unsafe' | 'competencies'>;

export type Opening = { readonly seed: number; readonly trainee: Trainee; readonly hints: boolean };

export type DrillEngine<R> = {
  readonly cards: () => readonly DrillCard[];
  /** Digest of a drill with the shift it begins from: the same attempt done again needs the same one. */
  readonly digestOf: (drill: string) => string;
  /** The run at the moment the trainee takes over. Throws PlainError when there is no such drill. */
  readonly open: (drill: string, opening: Opening) => R;
  readonly scenarioOf: (run: R) => Scenario;
  readonly tickOf: (run: R) => number;
  readonly advance: (
    run: R,
    commands: readonly CommandEnvelope[],
    interventions: readonly Intervention[],
  ) => {
    readonly run: R;
    readonly answers: readonly { readonly id: string; readonly answer: Answer }[];
    /** Why an intervention was not taken; empty when all were. */
    readonly because: readonly string[];
  };
  readonly viewOf: (run: R) => LineView;
  readonly seatOf: (run: R) => SeatExtras;
  /** Faults that are on now, hidden ones too: for the trainer alone. */
  readonly faultsOf: (run: R) => readonly { readonly target: string; readonly fault: string }[];
  /** What goes wrong in this run, begun or to come: for the trainer alone. */
  readonly plannedOf: (run: R) => readonly PlannedIncident[];
  readonly standingsOf: (run: R) => Standings;
  /** The debrief as JSON; dear, so made once. */
  readonly debriefOf: (run: R) => { readonly outcome: Outcome; readonly debrief: unknown };
};
