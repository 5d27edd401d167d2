/** What happened to job mixes as a sentence for the record. */
import type { MixFact } from './facts.ts';

const plain = (fact: MixFact): string => {
  switch (fact.is) {
    case 'mixDrafted':
      return `Drafted ${fact.mix} version ${fact.version}: ${fact.why}`;
    case 'mixApproved':
      return `Approved ${fact.mix} version ${fact.version}${
        fact.supersedes === null ? '' : `, in place of version ${fact.supersedes}`
      }${fact.note === '' ? '' : `: ${fact.note}`}`;
    case 'mixWithdrawn':
      return `Withdrew ${fact.was === 'draft' ? 'the draft' : 'the approved mix'} ${fact.mix} version ${
        fact.version
      }: ${fact.reason}${fact.backTo === null ? '' : `; version ${fact.backTo} is in force again`}`;
    case 'trialRecorded':
      return `Recorded trial ${fact.trial} of ${fact.mix} version ${fact.version}, ${fact.results.length} ${
        fact.results.length === 1 ? 'result' : 'results'
      }`;
    case 'trialCorrected':
      return `Corrected trial ${fact.trial}: ${fact.reason}`;
    case 'factorSet':
      return `Set ${fact.factor} from ${fact.was.value} to ${fact.now.value}: ${fact.reason}`;
    case 'binDescribed':
      return `Described bin ${fact.bin} anew as ${fact.now.kind}: ${fact.reason}`;
  }
};

/** One sentence without a full stop; the name of the fact where the book does not know it. */
export const mixWords = (fact: { readonly is: string }): string => plain(fact as MixFact) ?? fact.is;
