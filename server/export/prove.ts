/** Makes a proof file from a sealed shift in the store. */
import { toHex } from '../../machines/record/bytes.ts';
import type { Entry } from '../../machines/record/entry.ts';
import { inclusionPath, leafHash, merkleLevels } from '../../machines/record/merkle.ts';
import { PROOF_FORMAT, type Proof } from '../../machines/record/proof.ts';
import { PlainError } from '../plain-error.ts';
import { lostKeysOf, rotationsAround } from '../seal/lost-key.ts';
import { NODE_CRYPTO } from '../seal/node-crypto.ts';
import { rotationsOf } from '../seal/seals-of.ts';
import type { Span } from '../seal/spans.ts';
import type { Store } from '../store/store.ts';

export type ToProve = { readonly lot: string } | { readonly batch: number } | { readonly entry: number };

type About = {
  readonly lot?: unknown;
  readonly batch?: unknown;
  readonly to?: unknown;
  readonly from?: unknown;
};

/** Whether an entry is about what is to be proven. A lot takes in its batches, which its facts name as they come. */
const matcher = (what: ToProve): ((entry: Entry) => boolean) => {
  if ('entry' in what) return ({ seq }) => seq === what.entry;
  const batches = new Set<unknown>('batch' in what ? [what.batch] : []);
  const lot = 'lot' in what ? what.lot : null;
  return (entry) => {
    if (entry.kind !== 'fact') return false;
    const fact: About = entry.body.fact as About;
    const ofLot =
      lot !== null && (fact.lot === lot || fact.to === `lot:${lot}` || fact.from === `lot:${lot}`);
    if (ofLot && typeof fact.batch === 'number') batches.add(fact.batch);
    return ofLot || batches.has(fact.batch);
  };
};

const inWords = (what: ToProve): string =>
  'lot' in what ? `lot ${what.lot}` : 'batch' in what ? `batch ${what.batch}` : `entry ${what.entry}`;

/** Holds the 32 bytes of every leaf of the shift, not its entries. Throws PlainError when there is nothing to prove. */
export const proveFrom = async (store: Store, span: Span, what: ToProve): Promise<Proof> => {
  const { sealEntry } = span;
  if (sealEntry === null)
    throw new PlainError(
      `Shift ${span.ordinal} is not sealed yet: there is no root to prove anything against.`,
    );
  if (span.archivedIn !== null)
    throw new PlainError(`Shift ${span.ordinal} was moved to ${span.archivedIn}: restore it first.`);
  const concerns = matcher(what);
  const leaves: Uint8Array[] = [];
  const chosen: { text: string; index: number }[] = [];
  for await (const { json } of store.texts(span.shift, span.covered)) {
    const index = leaves.length;
    leaves.push(leafHash(Buffer.from(json), NODE_CRYPTO.sha256));
    // The opening says which program, plant and mixes the rest is about.
    if (index === 0 || concerns(JSON.parse(json) as Entry)) chosen.push({ text: json, index });
  }
  if (chosen.length === 1 && !('entry' in what && what.entry === span.shift))
    throw new PlainError(`Shift ${span.ordinal} holds no ${inWords(what)}.`);
  const levels = merkleLevels(leaves, NODE_CRYPTO.sha256);
  if (toHex(levels.at(-1)?.[0] ?? new Uint8Array(0)) !== sealEntry.body.root)
    throw new PlainError(
      `The entries of shift ${span.ordinal} do not make the root its seal holds: run patchyard verify on ${store.where}.`,
    );
  return {
    format: PROOF_FORMAT,
    what: 'patchyard proof',
    about: `${inWords(what)} of shift ${span.scenario}, ${span.day}`,
    seal: sealEntry,
    rotations: rotationsAround(await rotationsOf(store), await lostKeysOf(store), sealEntry.seq),
    entries: chosen.map(({ text, index }) => ({
      text,
      index,
      path: inclusionPath(levels, index).map(toHex),
    })),
  };
};
