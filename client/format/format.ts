/** Numbers and times as people read them; every function takes the unit its name says. */

const two = (n: number): string => String(n).padStart(2, '0');
/** A true minus sign, as wide as a digit. */
const signed = (text: string): string => text.replace(/^-(?=0(\.0+)?(?![\d.]))/, '').replace('-', '−');

/** 130 → "2:10", 3725 → "62:05": minutes and seconds whatever the length, so that it is read one way only. A part of a second counts as a whole one. */
export function formatCountdown(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds - 1e-6));
  return `${Math.floor(whole / 60)}:${two(whole % 60)}`;
}

/** 130 → "2 min 10 s", for screen readers and sentences. */
export function spokenDuration(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  if (whole < 60) return `${whole} s`;
  const minutes = Math.floor(whole / 60);
  if (minutes >= 60) return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
  return whole % 60 === 0 ? `${minutes} min` : `${minutes} min ${whole % 60} s`;
}

/** A forecast further ahead than this says only that there is time enough; it is not shown. */
export const FAR_S = 6 * 3600;

/** Time of day: shift start "06:00" plus milliseconds into the shift → "11:14:26". */
export function shiftClock(startsAt: string, atMs: number, withSeconds = true): string {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const total = Math.floor(atMs / 1000) + h * 3600 + m * 60;
  const hours = Math.floor(total / 3600) % 24;
  const minutes = Math.floor((total % 3600) / 60);
  return withSeconds ? `${two(hours)}:${two(minutes)}:${two(total % 60)}` : `${two(hours)}:${two(minutes)}`;
}

/** 6750 → "6.75 t" */
export const formatTonnes = (massKg: number): string => signed(`${(massKg / 1000).toFixed(2)} t`);

/** Kilograms at the interval of their scale: below 200 kg to 0.1 when not whole. */
export function formatKg(massKg: number): string {
  const digits = Math.abs(massKg) < 200 && Math.abs(massKg - Math.round(massKg)) > 0.04 ? 1 : 0;
  return signed(massKg.toFixed(digits));
}

export const formatC = (tempC: number): string => signed(`${tempC.toFixed(1)} °C`);

/** "25–65 °C", "≤ 65 °C", "≥ 75 °C" or "" */
export function formatWindow(fromC: number | null, toC: number | null): string {
  const short = (c: number) => signed(String(Math.round(c * 10) / 10));
  if (fromC !== null && toC !== null) return `${short(fromC)}–${short(toC)} °C`;
  if (toC !== null) return `≤ ${short(toC)} °C`;
  return fromC === null ? '' : `≥ ${short(fromC)} °C`;
}

/** Share of a whole as a number from 0 to 1, safe against an empty whole. */
export const share01 = (part: number, whole: number): number =>
  whole > 0 ? Math.min(1, Math.max(0, part / whole)) : 0;

export const percent = (share: number): string => `${(share * 100).toFixed(2)}%`;

export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** '2026-04-14' or '2026-04-14T11:02:00' → "14 Apr 2026" */
export function formatDay(at: string): string {
  const [year = '', month = '', day = ''] = at.slice(0, 10).split('-');
  return `${Number(day)} ${MONTHS[Number(month) - 1] ?? ''} ${year}`;
}

/** '2026-04-14T11:02:00', on the plant's clock → "14 Apr, 11:02"; a day alone → "14 Apr 2026" */
export const formatDayTime = (at: string): string =>
  at.length > 10 ? `${formatDay(at).slice(0, -5)}, ${at.slice(11, 16)}` : formatDay(at);

/** Days inside a sentence the books wrote: "needed by 2026-05-20" → "needed by 20 May 2026". */
export const plainDays = (words: string): string =>
  words.replace(
    /(?<![\w-])(\d{4}-\d{2}-\d{2})(?:T(\d{2}:\d{2})(?::\d{2})?)?(?![\w-])/g,
    (_, day: string, time?: string) =>
      time === undefined ? formatDay(day) : formatDayTime(`${day}T${time}`),
  );

const NO_BREAK_SPACE = '\u00a0';

/** Keeps a number and its unit on one line: "65 °C" never breaks between. */
export const keepUnits = (text: string): string =>
  text.replace(/(\d) (?=(°C|%|kg|t|L|A|s|min|m³|mm)(?![a-z]))/g, `$1${NO_BREAK_SPACE}`);
