/** What stands in an export beside its entries: every file follows from the opening, the scenario and the seal. */
import type { Scenario } from '../scenario/shift.schema.ts';
import { fromBase64, utf8 } from './bytes.ts';
import type { OpeningBody } from './entry.ts';
import {
  EXPORT_FILES,
  EXPORT_FORMAT,
  type ExportFile,
  type ExportManifest,
  type SealFile,
} from './export.types.ts';
import { README_V1 } from './export-readme.ts';
import { pemOf, signedText } from './seal.ts';

export type SmallFile = { readonly name: string; readonly bytes: Uint8Array };

/** JSON as people read it; the same value always gives the same text. */
export const prettyJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

const file = (name: string, text: string): SmallFile => ({ name, bytes: utf8(text) });
const jsonFile = (name: string, value: unknown): SmallFile => file(name, prettyJson(value));

const sealFiles = (sealFile: SealFile): SmallFile[] => {
  const { seal, rotations, countersignatures } = sealFile;
  const keys = new Map<string, string>([[seal.body.key, seal.body.publicKey]]);
  for (const { body } of countersignatures) keys.set(body.key, body.publicKey);
  for (const { body } of rotations) keys.set(body.from, body.fromPublicKey).set(body.to, body.toPublicKey);
  return [
    jsonFile(EXPORT_FILES.seal, sealFile),
    file(EXPORT_FILES.sealSigned, signedText(seal.body)),
    { name: EXPORT_FILES.sealSignature, bytes: fromBase64(seal.body.signature) ?? new Uint8Array(0) },
    ...[...keys]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([fingerprint, publicKey]) => file(`${EXPORT_FILES.keys}${fingerprint}.pem`, pemOf(publicKey))),
  ];
};

/** Every file but manifest, entries and attachments, in the order they are written. */
export const smallFiles = (scenario: Scenario, sealFile: SealFile | null): readonly SmallFile[] => [
  file(EXPORT_FILES.readme, README_V1),
  jsonFile(EXPORT_FILES.scenario, scenario),
  jsonFile(EXPORT_FILES.plant, scenario.plant),
  jsonFile(EXPORT_FILES.people, scenario.people),
  jsonFile(EXPORT_FILES.shift, scenario.shift),
  ...scenario.mixes.map((mix) => jsonFile(`${EXPORT_FILES.mixes}${mix.id}.json`, mix)),
  ...(sealFile === null ? [] : sealFiles(sealFile)),
];

export type ManifestParts = {
  readonly opening: OpeningBody;
  readonly openingSeq: number;
  readonly scenario: Scenario;
  readonly entries: ExportManifest['entries'];
  readonly sealFile: SealFile | null;
  readonly files: readonly ExportFile[];
};

export const manifestOf = (parts: ManifestParts): ExportManifest => {
  const { opening, openingSeq, scenario, entries, sealFile, files } = parts;
  const { id, name, date, startsAt } = scenario.shift;
  return {
    format: EXPORT_FORMAT,
    what: 'patchyard shift',
    program: opening.program,
    physics: opening.physics,
    shift: { opening: openingSeq, id, name, date, startsAt },
    entries,
    seal:
      sealFile === null
        ? null
        : {
            seq: sealFile.seal.seq,
            root: sealFile.seal.body.root,
            key: sealFile.seal.body.key,
            countersignatures: sealFile.countersignatures.length,
          },
    files: [...files].sort((a, b) => (a.name < b.name ? -1 : 1)),
  };
};
