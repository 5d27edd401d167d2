/** Whether the seal of a shift, its countersignatures and the changes of key hold, each for itself and together. */
import { toHex, utf8 } from './bytes.ts';
import { canonical } from './canonical.ts';
import type { RecordCrypto } from './crypto.types.ts';
import type { Entry, KeyRotatedBody } from './entry.ts';
import type { Finding, FindingKind, SealFile } from './export.types.ts';
import type { LinesChecked } from './line-check.ts';
import { rotationHolds, signatureHolds } from './seal.ts';

const FILE = 'seal.json';
const finding = (kind: FindingKind, seq: number | null, detail: string): Finding => ({
  kind,
  seq,
  file: FILE,
  detail,
});

/** Whether an entry's hash is the one of its content. */
export const entryHashHolds = (entry: Entry, crypto: RecordCrypto): boolean => {
  const { hash, ...rest } = entry;
  try {
    return toHex(crypto.sha256(utf8(canonical(rest)))) === hash;
  } catch {
    return false;
  }
};

type Rotation = { readonly seq: number; readonly body: KeyRotatedBody };

/** The key in force at an entry: the newest change before it says, or the first one after it. */
export const keyAt = (rotations: readonly Rotation[], seq: number): string | null => {
  const before = rotations.filter((rotation) => rotation.seq < seq).at(-1);
  if (before !== undefined) return before.body.to;
  return rotations.find((rotation) => rotation.seq > seq)?.body.from ?? null;
};

/** Whether recorded changes lead from one key to another, in either direction: each names and signs both. */
const leadsTo = (rotations: readonly Rotation[], from: string, to: string): boolean => {
  const reached = new Set([from]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const { body } of rotations)
      if (reached.has(body.from) !== reached.has(body.to)) {
        reached.add(body.from).add(body.to);
        grew = true;
      }
  }
  return reached.has(to);
};

const short = (hex: string): string => `${String(hex).slice(0, 16)}…`;

/** What is wrong with changes of key among themselves. */
const rotationFindings = async (
  rotations: readonly Extract<Entry, { kind: 'keyRotated' }>[],
  crypto: RecordCrypto,
): Promise<Finding[]> => {
  const found: Finding[] = [];
  for (const [i, entry] of rotations.entries()) {
    const before = rotations[i - 1];
    if (!entryHashHolds(entry, crypto))
      found.push(
        finding(
          'entry altered',
          entry.seq,
          `change of key ${entry.seq}: its content does not match its hash`,
        ),
      );
    else if (!(await rotationHolds(entry.body, crypto)))
      found.push(
        finding('wrong key', entry.seq, `change of key ${entry.seq} is not signed by both its keys`),
      );
    else if (before !== undefined && (before.seq >= entry.seq || before.body.to !== entry.body.from))
      found.push(
        finding('wrong key', entry.seq, `change of key ${entry.seq} does not go on from the one before it`),
      );
  }
  return found;
};

const countersignatureFindings = async (
  { seal, countersignatures, rotations }: SealFile,
  crypto: RecordCrypto,
): Promise<Finding[]> => {
  const found: Finding[] = [];
  const wrong = (entry: Entry, why: string) =>
    found.push(finding('countersignature mismatch', entry.seq, `countersignature ${entry.seq} ${why}`));
  for (const entry of countersignatures) {
    const { body } = entry;
    const inForce = keyAt(rotations, entry.seq);
    if (!entryHashHolds(entry, crypto)) wrong(entry, 'does not match its hash');
    else if (body.seal !== seal.seq || body.root !== seal.body.root) wrong(entry, 'is of another seal');
    else if (!(await signatureHolds(body, crypto))) wrong(entry, 'has a signature that does not fit it');
    else if (body.key !== (inForce ?? seal.body.key))
      wrong(entry, `is signed by another key, ${short(body.key)}`);
    else if (body.by?.person === seal.body.by?.person)
      wrong(entry, 'is by the same person who closed the shift');
  }
  return found;
};

const keyFindings = ({ seal, rotations }: SealFile, pinned: string | undefined): Finding[] => {
  const { key } = seal.body;
  const inForce = keyAt(rotations, seal.seq);
  if (inForce !== null && inForce !== key)
    return [
      finding(
        'wrong key',
        seal.seq,
        `the seal is made with key ${short(key)}, but ${short(inForce)} was in force at entry ${seal.seq}`,
      ),
    ];
  if (pinned !== undefined && !leadsTo(rotations, pinned, key))
    return [
      finding(
        'wrong key',
        seal.seq,
        `the seal is made with key ${short(key)}, not with ${short(pinned)} nor one it was changed to`,
      ),
    ];
  return [];
};

/** What the seal says of the entries against what they are. `lines` must have no findings of their own. */
const coverFindings = ({ seal }: SealFile, opening: number, lines: LinesChecked): Finding[] => {
  const { body } = seal;
  const wrong = (detail: string): Finding[] => [finding('seal mismatch', seal.seq, detail)];
  if (body.shift !== opening || body.first !== lines.first)
    return wrong(`the seal is of the shift opened by entry ${body.shift}, not of ${opening}`);
  if (body.last !== lines.last || body.count !== lines.count)
    return wrong(
      `the seal covers ${body.count} entries up to ${body.last}; there are ${lines.count} up to ${lines.last}`,
    );
  if (body.root !== lines.root || body.head !== lines.head)
    return wrong(
      `the entries make root ${short(lines.root)}, the seal says ${short(body.root)}: what was sealed is not what is here, though each entry fits the one before it`,
    );
  if (canonical(body.chunks) !== canonical(lines.chunks))
    return [finding('chunk mismatch', seal.seq, 'the readings do not make the chunk digests the seal holds')];
  if (seal.seq === body.last + 1 && seal.prev !== body.head)
    return wrong(`the seal does not stand behind entry ${body.last}`);
  return [];
};

/** What is wrong with seal, keys and countersignatures, whatever the entries are. */
export const sealItselfFindings = async (
  sealFile: SealFile,
  pinned: string | undefined,
  crypto: RecordCrypto,
): Promise<Finding[]> => {
  const { seal, rotations } = sealFile;
  const found = await rotationFindings(rotations, crypto);
  if (!entryHashHolds(seal, crypto))
    found.push(finding('seal mismatch', seal.seq, `seal ${seal.seq}: its content does not match its hash`));
  if (await signatureHolds(seal.body, crypto)) found.push(...keyFindings(sealFile, pinned));
  else
    found.push(
      finding(
        'seal mismatch',
        seal.seq,
        'the signature does not fit what the seal says, or is not by the key it names',
      ),
    );
  found.push(...(await countersignatureFindings(sealFile, crypto)));
  return found;
};

/** Everything that can be wrong about a seal. The entries' own findings come first and are not repeated here. */
export const sealFindings = async (
  sealFile: SealFile,
  opening: number,
  lines: LinesChecked,
  pinned: string | undefined,
  crypto: RecordCrypto,
): Promise<Finding[]> => {
  const found = await sealItselfFindings(sealFile, pinned, crypto);
  if (found.some(({ kind }) => kind === 'seal mismatch') || lines.findings.length > 0) return found;
  return [...found, ...coverFindings(sealFile, opening, lines)];
};
