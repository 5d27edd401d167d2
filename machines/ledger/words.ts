/** Ledger facts in plain words, from each book's own; apart from the books, so that a page of words need not carry them. */
import { labWords } from '../lab/words.ts';
import type { BookName } from '../record/book.types.ts';
import type { LedgerFact } from '../record/entry.ts';
import { mixWords } from '../yard/mixes/words.ts';
import { patchesWords } from '../yard/patches/words.ts';
import { stockWords } from '../yard/stock/words.ts';
import { recallsWords } from '../yard/trace/recalls/words.ts';

/** Words of a book's own facts, for a fact as the record holds it. */
const inWords =
  <F>(words: (fact: F) => string) =>
  (fact: LedgerFact): string =>
    words(fact as F);

/** 'sampleLogged' as 'Sample logged'. */
const spelled = (name: string): string => {
  const words = name.replace(/([a-z])([A-Z])/g, (_, a, b) => `${a} ${b.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

const WORDS: { readonly [B in BookName]: (fact: LedgerFact) => string } = {
  lab: inWords(labWords),
  patches: inWords(patchesWords),
  mixes: mixWords,
  stock: inWords(stockWords),
  recalls: inWords(recallsWords),
};

/** One sentence without a full stop; a fact the book has no words for is called by its name. */
export const wordsOfFact = (book: BookName, fact: LedgerFact): string => {
  try {
    // A fact of a later program has no words here, whatever its book's types say.
    const words: string | undefined = WORDS[book](fact);
    return words ?? spelled(fact.is);
  } catch {
    return spelled(fact.is);
  }
};
