/** A file the browser was given, as an export that can be read and checked; nothing of it leaves this computer. */
import { planChecker } from '../../../machines/lab/plan-checker.ts';
import {
  ExportError,
  type ExportErrorCode,
  type ExportReader,
  type ExportVerdict,
} from '../../../machines/record/export.types.ts';
import { openExport } from '../../../machines/record/open-export.ts';
import { verifyExport } from '../../../machines/record/verify-export.ts';
import { sourceOfBlob, WEB_CRYPTO, WEB_TOOLS } from '../../verify/web-tools.ts';

export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Kind of trouble with a file; 'fault' is one of this program. */
export const codeOf = (error: unknown): ExportErrorCode | 'fault' =>
  error instanceof ExportError ? error.code : 'fault';

export const openFile = (file: Blob): Promise<ExportReader> => openExport(sourceOfBlob(file), WEB_TOOLS);

/** Never rejects: what keeps a file from being checked is a verdict too. */
export const checkFile = async (file: Blob, onProgress: (share: number) => void): Promise<ExportVerdict> => {
  try {
    const reader = await openFile(file);
    const verdict = await verifyExport(reader, WEB_CRYPTO, { onProgress });
    if (verdict.result !== 'intact') return verdict;
    const scenario = await reader.scenario();
    const plans = planChecker(() => scenario);
    for await (const entries of reader.entries()) for (const entry of entries) plans.take(entry);
    const { findings } = plans.finish();
    return findings.length === 0 ? verdict : { result: 'altered', findings };
  } catch (error) {
    const code = codeOf(error);
    return { result: 'unreadable', code: code === 'fault' ? 'damaged' : code, detail: messageOf(error) };
  }
};
