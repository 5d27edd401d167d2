/** Sends one photograph to the server, telling how far it has got. */

export type Photo = {
  readonly sha256: string;
  readonly bytes: number;
  readonly type: string;
  readonly width: number;
  readonly height: number;
};
export type Sent =
  | { readonly ok: true; readonly photo: Photo }
  | { readonly ok: false; readonly because: readonly string[] };

/** What the server takes, so that a person hears of it before waiting for an upload. */
export const MOST_BYTES = 8 * 1024 * 1024;
export const PHOTO_TYPES = ['image/jpeg', 'image/png'] as const;

/** "3.2 MB", "840 kB" */
export const sizeWords = (bytes: number): string =>
  bytes >= 1e6 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.max(1, Math.round(bytes / 1000))} kB`;

/** Why a file is not worth sending; null when it may be tried. */
export function whyNotSend(file: { readonly size: number; readonly type: string }): string | null {
  if (!PHOTO_TYPES.some((type) => type === file.type))
    return `This is ${file.type === '' ? 'a file of no known kind' : file.type}; a photograph must be JPEG or PNG. Set the camera to JPEG or save the picture as one.`;
  if (file.size === 0) return 'The file is empty. Take the photograph again.';
  if (file.size > MOST_BYTES)
    return `The file is ${sizeWords(file.size)}; at most ${sizeWords(MOST_BYTES)} are kept. Take it at a lower resolution.`;
  return null;
}

const isPhoto = (value: unknown): value is Photo =>
  typeof value === 'object' && value !== null && 'sha256' in value && typeof value.sha256 === 'string';

const reasonsIn = (text: string): readonly string[] | null => {
  try {
    const said: unknown = JSON.parse(text);
    if (typeof said !== 'object' || said === null) return null;
    if ('because' in said && Array.isArray(said.because)) return said.because.map(String);
    return null;
  } catch {
    return null;
  }
};

/** `onProgress` hears a share from 0 to 1. XMLHttpRequest, because fetch does not tell how far an upload has got. */
export const sendPhoto = (file: Blob, onProgress: (share: number) => void): Promise<Sent> =>
  new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.open('POST', '/api/photos');
    request.setRequestHeader('content-type', file.type);
    request.upload.onprogress = ({ loaded, total }) => onProgress(total > 0 ? loaded / total : 0);
    request.onload = () => {
      try {
        const said: unknown = JSON.parse(request.responseText);
        if (request.status < 300 && isPhoto(said)) {
          resolve({ ok: true, photo: said });
          return;
        }
      } catch {
        // Not JSON: said below with the status.
      }
      resolve({
        ok: false,
        because: reasonsIn(request.responseText) ?? [
          `The server answered ${request.status} and kept nothing. Try again.`,
        ],
      });
    };
    request.onerror = () =>
      resolve({ ok: false, because: ['The server does not answer, so nothing was kept. Try again.'] });
    request.send(file);
  });
