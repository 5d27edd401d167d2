/** Turns the names used inside charts into words an operator reads. */
import { TRIPS } from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { SIGNALS, type Signal } from '../../machines/charts/signals.ts';

const isSignal = (name: string): name is Signal => name in SIGNALS;

/** "confirmLook" as "confirm look", "noPilotFlame" as "no pilot flame". */
export const spaced = (name: string): string =>
  name
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replace(/[-_]/g, ' ')
    .toLowerCase();

/** First letter as a capital. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A state without a title of its own: a latched trip by its cause, any other by its name. */
export const stateWords = (key: string): string => {
  const trip = TRIPS.find((each) => each.id === key);
  return trip === undefined ? capital(spaced(key)) : `${trip.id} ${trip.cause}`;
};

const WHO: { readonly [origin: string]: string } = {
  operator: 'person',
  line: 'line',
  scale: 'scale',
};

/** The part of a signal's sentence before its explanation: labels must be short. */
const brief = (sentence: string): string => sentence.split(':')[0] ?? sentence;

const AFTER = /^xstate\.after\.([^.]+)\./;

/**
 * What makes a chart move, in words: "on.purged" is "Drum purged", "off.purged" is
 * "no longer: drum purged", a delay is "after trial for ignition", a command is "person: light burner".
 */
export const eventWords = (type: string): string => {
  if (type === '') return 'at once';
  const after = AFTER.exec(type)?.[1];
  if (after !== undefined)
    return `after ${/^\d+$/.test(after) ? `${Number(after) / 1000} s` : spaced(after)}`;
  const dot = type.indexOf('.');
  const origin = type.slice(0, dot);
  const name = type.slice(dot + 1);
  if (isSignal(name) && origin === 'on') return brief(SIGNALS[name]);
  if (isSignal(name) && origin === 'off') {
    const words = brief(SIGNALS[name]);
    return `no longer: ${words.charAt(0).toLowerCase()}${words.slice(1)}`;
  }
  if (dot < 0) return spaced(type);
  return `${WHO[origin] ?? spaced(origin)}: ${spaced(name)}`;
};
