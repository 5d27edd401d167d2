/** Events an alarm chart hears, in ISA-18.2 words. */
export type AlarmEvent =
  | { readonly type: 'line.conditionOn' }
  | { readonly type: 'line.conditionOff' }
  /** By design: the plant's state makes the alarm meaningless for now. */
  | { readonly type: 'line.suppress' }
  | { readonly type: 'line.unsuppress' }
  | { readonly type: 'operator.acknowledge' }
  | { readonly type: 'operator.shelve' }
  | { readonly type: 'operator.unshelve' }
  | { readonly type: 'operator.outOfService' }
  | { readonly type: 'operator.returnToService' };
