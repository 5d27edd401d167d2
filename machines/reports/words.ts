/** The program's own names as people say them. */

/** "addingBinder" and "mixed-too-long" → "adding binder", "mixed too long". */
export const plainWords = (name: string): string =>
  name
    .replaceAll('-', ' ')
    .replace(/([a-z0-9])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

const PLACES: { readonly [account: string]: string } = {
  hopper: 'weigh hopper',
  dryer: 'dryer',
  holdingBin: 'dry holding bin',
  bucket: 'binder bucket',
  mixer: 'pug mill',
};

export const placeWords = (account: string): string => PLACES[account] ?? plainWords(account);

/** Reasons one behind the other: those that are sentences need no sign between. */
export const reasonsText = (reasons: readonly string[]): string =>
  reasons.map((one, i) => (i === reasons.length - 1 || /[.!?]$/.test(one) ? one : `${one};`)).join(' ');

/** Printed on every page and screen of a report. */
export const NOT_A_CONTROLLER = 'Simulator, training and record keeping; not a safety-rated controller.';
