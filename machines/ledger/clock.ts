/** The plant's own local clock, as the ledger writes it: YYYY-MM-DDTHH:MM:SS. */
import { daysAfter } from '../line/days.ts';

const DAY_S = 86_400;
const two = (n: number): string => String(n).padStart(2, '0');

/** `date` YYYY-MM-DD and `startsAt` HH:MM of the shift, `atMs` plant time since it began. */
export const localAt = (date: string, startsAt: string, atMs: number): string => {
  const [h = 0, m = 0] = startsAt.split(':').map(Number);
  const second = h * 3600 + m * 60 + Math.floor(atMs / 1000);
  const days = Math.floor(second / DAY_S);
  const ofDay = second - days * DAY_S;
  const day = days === 0 ? date : daysAfter(date, days);
  return `${day}T${two(Math.floor(ofDay / 3600))}:${two(Math.floor(ofDay / 60) % 60)}:${two(ofDay % 60)}`;
};
