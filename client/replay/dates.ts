/** Dates as people say them. */

const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** "2026-05-12" → "Tue 12 May 2026"; anything else as it stands. */
export const longDate = (date: string): string => {
  const [, y, m, d] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? [];
  if (y === undefined || m === undefined || d === undefined) return date;
  const day = new Date(Date.UTC(Number(y), Number(m) - 1, Number(d))).getUTCDay();
  return `${DAYS[day] ?? ''} ${Number(d)} ${MONTHS[Number(m) - 1] ?? m} ${y}`.trim();
};

/** 2890610 → "2.9 MB" */
export const formatBytes = (bytes: number): string =>
  bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
