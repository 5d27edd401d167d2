/** What a seal, a countersignature and a change of key sign, and whether their signatures hold. */
import { fromBase64, toHex, utf8 } from './bytes.ts';
import { canonical } from './canonical.ts';
import type { PlantKey, RecordCrypto } from './crypto.types.ts';
import type { CountersignatureBody, KeyRotatedBody, SealBody } from './entry.ts';

type Signed = SealBody | CountersignatureBody;

/** The exact text a seal or countersignature signs: RFC 8785 form of its body without the signature. */
export const signedText = (body: Signed): string => {
  const { signature: _signature, ...rest } = body;
  return canonical(rest);
};

/** The same of a change of key: without both signatures. */
export const rotationText = (body: KeyRotatedBody): string => {
  const { signature: _old, newSignature: _new, ...rest } = body;
  return canonical(rest);
};

type Unsigned<T extends Signed> = Omit<T, 'format' | 'key' | 'publicKey' | 'signature'>;

const sign = <T extends Signed>(content: Unsigned<T>, key: PlantKey): T => {
  const body = { format: 1 as const, ...content, key: key.fingerprint, publicKey: key.publicKey };
  return { ...body, signature: key.sign(canonical(body)) } as unknown as T;
};

export const signSeal = (content: Unsigned<SealBody>, key: PlantKey): SealBody =>
  sign<SealBody>(content, key);

export const countersign = (content: Unsigned<CountersignatureBody>, key: PlantKey): CountersignatureBody =>
  sign<CountersignatureBody>(content, key);

/** Both keys sign the change: the old one to allow it, the new one to show that it is there. */
export const rotateKey = (from: PlantKey, to: PlantKey, reason: string): KeyRotatedBody => {
  const content = {
    format: 1 as const,
    from: from.fingerprint,
    fromPublicKey: from.publicKey,
    to: to.fingerprint,
    toPublicKey: to.publicKey,
    reason,
  };
  const text = canonical(content);
  return { ...content, signature: from.sign(text), newSignature: to.sign(text) };
};

/** SHA-256 of a public key's SPKI form, hex. Null when the text is not base64. */
export const fingerprintOf = (publicKey: string, { sha256 }: Pick<RecordCrypto, 'sha256'>): string | null => {
  const spki = fromBase64(publicKey);
  return spki === null ? null : toHex(sha256(spki));
};

const holds = async (
  text: string,
  publicKey: string,
  fingerprint: string,
  signature: string,
  crypto: RecordCrypto,
): Promise<boolean> => {
  const [spki, bytes] = [fromBase64(publicKey), fromBase64(signature)];
  if (spki === null || bytes?.length !== 64 || toHex(crypto.sha256(spki)) !== fingerprint) return false;
  return crypto.verifyEd25519(spki, utf8(text), bytes);
};

/** True when the key is the one named and its signature fits the body. */
export const signatureHolds = async (body: Signed, crypto: RecordCrypto): Promise<boolean> =>
  holds(signedText(body), body.publicKey, body.key, body.signature, crypto);

export const rotationHolds = async (body: KeyRotatedBody, crypto: RecordCrypto): Promise<boolean> => {
  const text = rotationText(body);
  return (
    (await holds(text, body.fromPublicKey, body.from, body.signature, crypto)) &&
    (await holds(text, body.toPublicKey, body.to, body.newSignature, crypto))
  );
};

/** PEM (RFC 7468) of a public key given as base64 of its SPKI form. */
export const pemOf = (publicKey: string): string =>
  `-----BEGIN PUBLIC KEY-----\n${publicKey.replace(/(.{64})(?=.)/g, '$1\n')}\n-----END PUBLIC KEY-----\n`;

/** Sixteen groups of four, as a fingerprint is printed for people to compare. */
export const fingerprintInGroups = (fingerprint: string): string =>
  fingerprint.replace(/(.{4})(?=.)/g, '$1 ');

/** A fingerprint as a person may type it: spaces and colons do not count. Null when it is none. */
export const readFingerprint = (typed: string): string | null => {
  const bare = typed.replace(/[\s:]/g, '').toLowerCase();
  return /^[0-9a-f]{64}$/.test(bare) ? bare : null;
};
