/** What a weigher hears: orders from the line, its scale, and a person when a weight is out. */
export type WeigherEvent =
  /** Begin the next part at full feed. */
  | { readonly type: 'line.begin' }
  /** Put the weigher back to idle: its load has gone. */
  | { readonly type: 'line.clear' }
  /** The scale is close enough to target to change to dribble. */
  | { readonly type: 'scale.nearTarget' }
  /** The scale plus what is still in flight has reached target. */
  | { readonly type: 'scale.atCutOff' }
  /** The gate is open and the scale has not gained for a while. */
  | { readonly type: 'scale.noGain' }
  | { readonly type: 'scale.within' }
  | { readonly type: 'scale.light' }
  | { readonly type: 'scale.heavy' }
  | { readonly type: 'operator.topUp' }
  | { readonly type: 'operator.acceptWeight' };
