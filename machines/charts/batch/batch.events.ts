/** What a batch hears: ISA-88 commands, the line's own word, and signals. */
import type { SignalEvent } from '../signals.ts';

export type BatchEvent =
  | SignalEvent
  | { readonly type: 'operator.start' }
  | { readonly type: 'operator.hold' }
  | { readonly type: 'operator.restart' }
  | { readonly type: 'operator.stop' }
  | { readonly type: 'operator.abort' }
  | { readonly type: 'operator.reset' }
  | { readonly type: 'operator.confirmLook' }
  | { readonly type: 'operator.extendMix' }
  | { readonly type: 'operator.dump' }
  /** The line has booked the batch; the chart may rest. */
  | { readonly type: 'line.booked' };
