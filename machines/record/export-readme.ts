/** README.txt of export format 1. Frozen: every export of that format holds exactly this text. */

export const README_V1 = `PATCHYARD SHIFT EXPORT, FORMAT 1

The record of one shift: what was measured, asked, refused and done, one entry a line, in order.

  manifest.json       which shift, which entries, which files
  entries.ndjson      one entry a line: JSON with its keys in order (RFC 8785)
  seal.json           the seal of the shift, countersignatures, changes of key (only when sealed)
  seal-signed.txt     the exact text the seal signs
  seal-signature.bin  its Ed25519 signature (RFC 8032), 64 bytes
  keys/               public keys, named by the SHA-256 of their SPKI form
  scenario.json       plant, mixes, people and shift as the line ran with them; the same apart in files/
  attachments/        files that entries name, each called by its SHA-256

Check an entry, here the first. Its hash is the SHA-256 of its line without ,"hash":"..." :

  head -n 1 entries.ndjson | tr -d '\\n' | sed -E 's/(.*),"hash":"[0-9a-f]{64}"(,"kind":)/\\1\\2/' | sha256sum

"prev" of an entry is the hash of the entry before it. "root" in the seal is the RFC 6962 tree head over all
those texts in order.

Check the seal with OpenSSL 3 (FINGERPRINT is "key" in seal.json; it is printed on every report too):

  openssl pkeyutl -verify -pubin -inkey keys/FINGERPRINT.pem -rawin -in seal-signed.txt -sigfile seal-signature.bin
  openssl pkey -pubin -in keys/FINGERPRINT.pem -outform DER | sha256sum

Compare the fingerprint with one you have from elsewhere: whoever makes up a record can make up a key as well.

Everything at once:  patchyard verify THIS-FILE.zip --key FINGERPRINT

A simulator, training aid and record keeper; not a safety-rated controller.
`;
