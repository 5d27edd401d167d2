/** Verifies one file: an export of a shift, or a proof of some of its entries. */
import { type ByteSource, ExportError, type ExportReader } from '../../machines/record/export.types.ts';
import { openExport } from '../../machines/record/open-export.ts';
import { proofSchema, verifyProof } from '../../machines/record/proof.ts';
import { verifyExport } from '../../machines/record/verify-export.ts';
import { redecider, whyNotRedecided } from '../../machines/world/redecide.ts';
import { messageOf } from '../plain-error.ts';
import { NODE_CRYPTO, NODE_TOOLS, withSource } from '../seal/node-crypto.ts';
import { plansOfExport, plansWords } from './plans.ts';
import type { RedecidedVerdict, Verdict } from './verdict.ts';

export type VerifyFileOptions = {
  readonly key?: string;
  readonly redecide?: boolean;
  readonly onShare?: (share: number) => void;
};

const PROOF_LIMIT_BYTES = 256 * 1024 * 1024;
const OPEN_BRACE = '{'.charCodeAt(0);

/** Plant's time of day, from the start of the shift and ms since. */
const clockOf = (startsAt: string, atMs: number): string => {
  const [hours = 0, minutes = 0] = startsAt.split(':').map(Number);
  const all = Math.floor(atMs / 1000) + hours * 3600 + minutes * 60;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(Math.floor(all / 3600) % 24)}:${two(Math.floor(all / 60) % 60)}:${two(all % 60)}`;
};

const redecide = async (reader: ExportReader): Promise<RedecidedVerdict> => {
  const why = whyNotRedecided(reader.manifest);
  if (why !== null) return { result: 'declined', why };
  const scenario = await reader.scenario();
  try {
    const again = redecider(scenario);
    for await (const entries of reader.entries()) for (const entry of entries) again.take(entry);
    const { ticks, facts, commands, differing, differences } = again.finish();
    if (differing === 0) return { result: 'same', ticks, facts, commands };
    const { startsAt } = scenario.shift;
    return {
      result: 'different',
      facts,
      differing,
      differences: differences.map((one) => ({ ...one, clock: clockOf(startsAt, one.atMs) })),
    };
  } catch (error) {
    if (error instanceof ExportError) throw error;
    return { result: 'declined', why: `the line cannot be run over it (${messageOf(error)})` };
  }
};

const verifyProofFile = async (
  file: string,
  source: ByteSource,
  key: string | undefined,
): Promise<Verdict> => {
  if (source.size > PROOF_LIMIT_BYTES) throw new ExportError('too large', 'no proof is so large');
  const common = { of: 'proof', file, findings: [] } as const;
  let json: unknown;
  try {
    json = JSON.parse(NODE_TOOLS.decode(await source.read(0, source.size)));
  } catch {
    throw new ExportError('not an export', 'it is neither a zip nor JSON');
  }
  const proof = proofSchema.safeParse(json);
  if (!proof.success) {
    const { what, format } = (json ?? {}) as { what?: unknown; format?: unknown };
    const code = what === 'patchyard proof' && format !== 1 ? 'format unknown' : 'damaged';
    throw new ExportError(code, `it is not a proof of format 1 (${proof.error.issues[0]?.message ?? ''})`);
  }
  const verdict = await verifyProof(proof.data, NODE_CRYPTO, key);
  if (verdict.result === 'altered') return { ...common, result: 'altered', findings: verdict.findings };
  return { ...common, ...verdict, keyPinned: key !== undefined };
};

const verifyExportFile = async (
  file: string,
  source: ByteSource,
  { key, onShare, ...options }: VerifyFileOptions,
): Promise<Verdict> => {
  const reader = await openExport(source, NODE_TOOLS);
  const { shift } = reader.manifest;
  const verdict = await verifyExport(reader, NODE_CRYPTO, {
    ...(key === undefined ? {} : { key }),
    ...(onShare === undefined ? {} : { onProgress: onShare }),
  });
  const common = { of: 'export', file, shift, findings: [] } as const;
  if (verdict.result === 'unreadable') return { ...common, result: 'unreadable', why: verdict.detail };
  if (verdict.result === 'altered') return { ...common, result: 'altered', findings: verdict.findings };
  const plans = await plansOfExport(reader);
  if (plans.findings.length > 0) return { ...common, result: 'altered', findings: plans.findings };
  const remarks = plansWords(plans);
  const { entries, bytes, seal } = verdict;
  const { head } = verdict.manifest.entries;
  const redecided = options.redecide === true ? { redecided: await redecide(reader) } : {};
  if (seal === null) return { ...common, result: 'not sealed', entries, bytes, head, remarks, ...redecided };
  const { root, countersigned } = seal;
  const keyPinned = key !== undefined;
  return {
    ...common,
    ...{ result: 'intact', entries, bytes, head, root, key: seal.key, keyPinned, countersigned, remarks },
    ...redecided,
  };
};

/** Never rejects for what a file holds. */
export const verifyFile = async (file: string, options: VerifyFileOptions = {}): Promise<Verdict> => {
  try {
    return await withSource(file, async (source) => {
      const [first] = await source.read(0, 1);
      return first === OPEN_BRACE
        ? verifyProofFile(file, source, options.key)
        : verifyExportFile(file, source, options);
    });
  } catch (error) {
    if (!(error instanceof ExportError)) throw error;
    return { result: 'unreadable', of: 'export', file, why: error.message, findings: [] };
  }
};
