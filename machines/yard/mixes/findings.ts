/** Something about a mix that a person should know before it is made. */

export type Finding = {
  /** stop: do not make it so; warn: look at it; note: good to know. */
  readonly weight: 'stop' | 'warn' | 'note';
  readonly part: 'blend' | 'binder' | 'weights' | 'temperatures' | 'cost';
  readonly words: string;
};

/** A figure as people read it: so many decimals, no trailing zeros. */
export const figure = (value: number, decimals = 2): string => {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text;
  return (short === '-0' ? '0' : short).replace('-', '−');
};
