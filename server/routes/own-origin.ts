/** Only pages this server itself served may talk to it: no other site's page, and no other name for this machine. */

const LOOPBACK_NAMES: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '[::1]']);

const nameOf = (host: string): string => host.replace(/:\d+$/, '').toLowerCase();

/** True for a Host header that names the loopback (a foreign name pointing here is a rebinding trick). */
export const isLoopbackHost = (host: string | undefined): boolean =>
  host !== undefined && LOOPBACK_NAMES.has(nameOf(host));

/** True when the request names the loopback and comes from no page, or from a page of this server. */
export const isOwnOrigin = (host: string | undefined, origin: string | undefined): boolean => {
  if (!isLoopbackHost(host)) return false;
  return origin === undefined || origin === `http://${host}`;
};

/** Addresses `serve` may bind while there are no accounts. */
export const isLoopbackAddress = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127(\.\d{1,3}){3}$/.test(host);
