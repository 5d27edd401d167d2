/** Times of the plant as people write them, computed without a calendar of the machine. */

const two = (n: number): string => String(n).padStart(2, '0');

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const monthDays = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** "2026-02-28" and 1 → "2026-03-01" (Gregorian); a date that cannot be read comes back as it is. */
export const daysAfter = (date: string, days: number): string => {
  const found = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date);
  if (found === null) return date;
  let [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  for (let left = days; left > 0; left -= 1) {
    day += 1;
    if (day <= monthDays(year, month)) continue;
    day = 1;
    month += 1;
    if (month <= 12) continue;
    month = 1;
    year += 1;
  }
  return `${year}-${two(month)}-${two(day)}`;
};

export type ShiftStart = { readonly date: string; readonly startsAt: string };

/** Day and second of a moment of a shift, by the plant's clock. */
const momentOf = ({ date, startsAt }: ShiftStart, atMs: number): { date: string; second: number } => {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const second = h * 3600 + m * 60 + Math.floor(atMs / 1000);
  return { date: daysAfter(date, Math.floor(second / 86_400)), second: second % 86_400 };
};

/** "2026-04-14 06:12:33": the plant's own date and clock, `atMs` after the shift began. */
export const stampOf = (start: ShiftStart, atMs: number): string => {
  const { date, second } = momentOf(start, atMs);
  return `${date} ${two(Math.floor(second / 3600))}:${two(Math.floor(second / 60) % 60)}:${two(second % 60)}`;
};

/** "06:12" of "2026-04-14 06:12:33". */
export const clockOfStamp = (stamp: string, withSeconds = false): string =>
  withSeconds ? stamp.slice(11, 19) : stamp.slice(11, 16);

/** 3725 → "1 h 02 min", 130 → "2 min 10 s", 42 → "42 s". */
export const durationWords = (seconds: number): string => {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${two(whole % 60)} s`;
  return `${Math.floor(whole / 3600)} h ${two(Math.floor(whole / 60) % 60)} min`;
};
