/** What sealing and checking ask of the place they run in: node:crypto in the server, WebCrypto in a browser. */

/** SHA-256 of bytes, 32 bytes. Synchronous: entries are short and many. */
export type Sha256 = (bytes: Uint8Array) => Uint8Array;

export type RecordCrypto = {
  readonly sha256: Sha256;
  /** A running SHA-256 over much. */
  readonly sha256Stream: () => {
    readonly update: (bytes: Uint8Array) => void;
    readonly digest: () => Uint8Array;
  };
  /** RFC 8032 Ed25519; `publicKey` is SPKI (RFC 8410). False for a key or signature of any other form. */
  readonly verifyEd25519: (
    publicKey: Uint8Array,
    message: Uint8Array,
    signature: Uint8Array,
  ) => Promise<boolean>;
};

/** The plant's key as whoever seals holds it. */
export type PlantKey = {
  /** SHA-256 of `publicKey` (its SPKI form), hex. */
  readonly fingerprint: string;
  /** SPKI, base64. */
  readonly publicKey: string;
  /** Ed25519 signature over UTF-8 text, base64. */
  readonly sign: (text: string) => string;
};
