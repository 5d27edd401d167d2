/** Why an export could not be opened, as a title and what to do. */
import type { FromWorker } from './worker/messages.ts';

type Code = Extract<FromWorker, { readonly is: 'unreadable' }>['code'];

const TITLES: { readonly [C in Code]: string } = {
  'not an export': 'This is not an export of a shift',
  'format unknown': 'This export is of a form this program does not know',
  damaged: 'This file is damaged',
  'too large': 'This file is larger than it may be',
  'not supported here': 'This browser cannot read it',
  fault: 'This export could not be opened',
};

const ADVICE: { readonly [C in Code]: string } = {
  'not an export': 'Choose a file that “Download export” or patchyard export wrote; its name ends in .zip.',
  'format unknown': 'Open it with the version of Patchyard that wrote it, or a newer one.',
  damaged: 'Fetch it again from where it came from; if it stays so, compare it with the plant’s own copy.',
  'too large':
    'No shift comes near this size: do not trust the file, and fetch it again from where it came from.',
  'not supported here': 'A newer one can, and so can patchyard verify on the command line.',
  fault: 'Try once more; if it happens again, write down these words for whoever looks after the program.',
};

const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

/** A sentence begins with a capital, a file's name as it is written. */
const begun = (text: string): string =>
  /^[a-z]+[ ,]/.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text;

export const failureOf = (code: Code, why: string): readonly [title: string, why: string] => [
  TITLES[code],
  `${ended(begun(why))} ${ADVICE[code]}`,
];
