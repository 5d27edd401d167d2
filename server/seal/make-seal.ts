/** Makes the seal of a closed shift from the entries in the store, checking each against its hash on the way. */
import { toHex } from '../../machines/record/bytes.ts';
import { chunkBuilder } from '../../machines/record/chunks.ts';
import type { PlantKey } from '../../machines/record/crypto.types.ts';
import type { SealBody, Signer } from '../../machines/record/entry.ts';
import { lineOf } from '../../machines/record/line-text.ts';
import { leafHash, merkleBuilder } from '../../machines/record/merkle.ts';
import { signSeal } from '../../machines/record/seal.ts';
import { sha256 } from '../digest.ts';
import { PlainError } from '../plain-error.ts';
import type { Store } from '../store/store.ts';
import { NODE_CRYPTO } from './node-crypto.ts';
import type { SealEntry } from './seals-of.ts';

export type SealFold = {
  /** Takes in entries up to and including `last`, going on where it stood. */
  readonly upTo: (last: number) => Promise<void>;
  readonly finish: (how: SealedHow) => SealBody;
};

export type SealedHow = {
  readonly key: PlantKey;
  readonly prevSeal: SealEntry | null;
  readonly closed: SealBody['closed'];
  readonly by: Signer | null;
  readonly remark: string;
};

const KIND = /,"kind":"readings","prev":"[0-9a-f]{64}","seq":\d+,"wall":"[^"]*"\}$/;

/** Throws PlainError when an entry is missing or does not match its hash: a broken record is not sealed. */
export const sealFold = (store: Store, shift: number): SealFold => {
  const tree = merkleBuilder(NODE_CRYPTO.sha256);
  const chunks = chunkBuilder(NODE_CRYPTO);
  let at = { last: shift - 1, head: '' };
  return {
    upTo: async (last) => {
      for await (const { seq, hash, json } of store.texts(at.last + 1, last)) {
        if (seq !== at.last + 1 || sha256(json) !== hash)
          throw new PlainError(
            `The shift is not sealed: entry ${at.last + 1} of the record in ${store.where} is missing or altered. Run patchyard verify --data ${store.where}.`,
          );
        tree.add(leafHash(Buffer.from(json), NODE_CRYPTO.sha256));
        if (KIND.test(json.slice(-200))) chunks.add(seq, Buffer.from(lineOf(json, hash)));
        at = { last: seq, head: hash };
      }
      if (at.last !== last)
        throw new PlainError(
          `The shift is not sealed: the record in ${store.where} ends at entry ${at.last} instead of ${last}.`,
        );
    },
    finish: ({ key, prevSeal, closed, by, remark }) =>
      signSeal(
        {
          shift,
          first: shift,
          last: at.last,
          count: tree.size(),
          head: at.head,
          root: toHex(tree.root()),
          chunks: chunks.finish(),
          prevSeal: prevSeal === null ? null : { seq: prevSeal.seq, root: prevSeal.body.root },
          closed,
          by,
          remark,
        },
        key,
      ),
  };
};
