/** Writes readings as figures with units, always the same way and with steady width. */

const group = (digits: string): string => digits.replace(/\B(?=(\d{3})+(?!\d))/g, ',');

/** A number with fixed decimals, thousands grouped and a true minus sign. */
export const figure = (value: number, decimals: number): string => {
  const [whole = '0', part] = Math.abs(value).toFixed(decimals).split('.');
  const text = part === undefined ? group(whole) : `${group(whole)}.${part}`;
  const isZero = Number(Math.abs(value).toFixed(decimals)) === 0;
  return value < 0 && !isZero ? `−${text}` : text;
};

export const kg = (massKg: number, decimals = 0): string => `${figure(massKg, decimals)} kg`;
export const tonnes = (massKg: number): string => `${figure(massKg / 1000, massKg >= 99_950 ? 0 : 1)} t`;
export const celsius = (tempC: number): string => `${figure(tempC, 1)} °C`;
export const percent = (value: number, decimals = 0): string => `${figure(value, decimals)} %`;

/** Seconds as minutes and seconds, "2:05". */
export const minutes = (seconds: number): string => {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
};
