/** What a person is told about a sample that waits. */

/** A sample to be taken now; it stands on every page until it is taken or missed, and grows more urgent. */
export type SamplePrompt = {
  readonly lot: string;
  readonly sample: number;
  readonly test: string;
  readonly batch: number | null;
  readonly sinceMs: number;
  /** due: from the next discharge; now: it is being discharged; overdue: it lies in the bay, the next batch buries it; missed: too late. */
  readonly level: 'due' | 'now' | 'overdue' | 'missed';
  readonly words: string;
};
