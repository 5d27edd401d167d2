/** Verifies a data folder: the whole chain, and every seal against the entries it covers. */
import type { Finding, SealFile } from '../../machines/record/export.types.ts';
import { lineCheck } from '../../machines/record/line-check.ts';
import { lineOf } from '../../machines/record/line-text.ts';
import { sealFindings, sealItselfFindings } from '../../machines/record/verify-seal.ts';
import { type LostKey, lostKeysOf, rotationsAround } from '../seal/lost-key.ts';
import { NODE_CRYPTO } from '../seal/node-crypto.ts';
import { countersignaturesOf, rotationsOf, sealsOf } from '../seal/seals-of.ts';
import { type Span, spansOf } from '../seal/spans.ts';
import { withStore } from '../store/look.ts';
import { verifyFolder } from '../store/sqlite.ts';
import type { Store } from '../store/store.ts';
import { attachmentFindings } from './attachments.ts';
import { plansOfRecord, plansWords } from './plans.ts';
import type { Verdict } from './verdict.ts';

const shiftFindings = async (
  store: Store,
  span: Span,
  sealFile: SealFile,
  key: string | undefined,
): Promise<Finding[]> => {
  const check = lineCheck(span.shift, null, NODE_CRYPTO);
  for await (const { hash, json } of store.texts(span.shift, span.covered))
    check.take(Buffer.from(lineOf(json, hash)));
  const lines = check.finish(span.covered);
  const found = [...lines.findings, ...(await sealFindings(sealFile, span.shift, lines, key, NODE_CRYPTO))];
  return found.map((one) => inShift(span, one));
};

const inShift = (span: Span, one: Finding): Finding => ({
  ...one,
  file: null,
  detail: `shift ${span.ordinal}: ${one.detail}`,
});

/** Whether a seal is made with another key than the one before, and no change or loss on record says why. */
const isStranger = (
  before: SealFile['seal'] | null,
  seal: SealFile['seal'],
  rotations: SealFile['rotations'],
  lost: readonly LostKey[],
): boolean =>
  before !== null &&
  before.body.key !== seal.body.key &&
  ![...rotations, ...lost].some(({ seq }) => seq > before.seq && seq < seal.seq);

const checkSeals = async (
  store: Store,
  key: string | undefined,
): Promise<{ findings: Finding[]; seals: number; archived: number; lost: readonly LostKey[] }> => {
  const countersignatures = await countersignaturesOf(store);
  const allRotations = await rotationsOf(store);
  const lost = await lostKeysOf(store);
  const findings: Finding[] = [];
  let [seals, archived] = [0, 0];
  let before: SealFile['seal'] | null = null;
  const spans = (await spansOf(store)).filter((span) => span.sealEntry !== null);
  for (const span of spans.sort((a, b) => (a.seal ?? 0) - (b.seal ?? 0))) {
    const seal = span.sealEntry as SealFile['seal'];
    const prev = seal.body.prevSeal;
    if ((prev?.seq ?? null) !== (before?.seq ?? null) || (prev?.root ?? null) !== (before?.body.root ?? null))
      findings.push({
        kind: 'seal mismatch',
        seq: seal.seq,
        file: null,
        detail: `shift ${span.ordinal}: its seal does not name the seal made before it`,
      });
    const rotations = rotationsAround(allRotations, lost, seal.seq);
    if (isStranger(before, seal, allRotations, lost))
      findings.push({
        kind: 'wrong key',
        seq: seal.seq,
        file: null,
        detail: `shift ${span.ordinal}: its seal is made with another key than the one before, and no change or loss of the key is on record`,
      });
    before = seal;
    const own = countersignatures.filter(({ body }) => body.seal === seal.seq);
    const sealFile = { seal, countersignatures: own, rotations };
    // The entries of an archived shift lie in its export file, which is verified by itself.
    if (span.archivedIn === null) findings.push(...(await shiftFindings(store, span, sealFile, key)));
    else {
      archived += 1;
      const found = await sealItselfFindings(sealFile, key, NODE_CRYPTO);
      findings.push(...found.map((one) => inShift(span, one)));
    }
    seals += 1;
  }
  return { findings, seals, archived, lost };
};

/** A server may be running on the folder meanwhile. Throws PlainError when there is nothing to read. */
export const verifyRecord = async (folder: string, key?: string): Promise<Verdict> => {
  const chain = verifyFolder(folder);
  return withStore(folder, async (store): Promise<Verdict> => {
    const common = { of: 'record', file: folder } as const;
    if (!chain.ok) {
      const { seq, why } = chain;
      return {
        ...common,
        result: 'altered',
        findings: [{ kind: 'entry altered', seq, file: null, detail: why }],
      };
    }
    const { findings: found, seals, archived, lost } = await checkSeals(store, key);
    const plans = await plansOfRecord(store);
    const findings = [...found, ...plans.findings, ...(await attachmentFindings(store, folder))];
    const remarks = [
      ...(archived === 0
        ? []
        : [
            `${archived === 1 ? '1 shift lies in an archive file' : `${archived} shifts lie in archive files`}: of ${archived === 1 ? 'it' : 'them'} opening, seal and end were checked here; verify the ${archived === 1 ? 'file' : 'files'} too.`,
          ]),
      ...plansWords(plans),
      ...lost.map(({ seq, detail }) => `Entry ${seq}: ${detail}.`),
    ];
    const result = findings.length === 0 ? 'intact' : 'altered';
    const newest = (await sealsOf(store)).at(-1);
    const sealedWith = newest === undefined ? {} : { key: newest.body.key, keyPinned: key !== undefined };
    return {
      ...common,
      result,
      entries: chain.entries,
      head: chain.end.hash,
      seals,
      archived,
      remarks,
      ...sealedWith,
      findings,
    };
  });
};
