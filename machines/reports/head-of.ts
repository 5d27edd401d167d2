/** Makes the head of a report, and the people in it. */
import type { Who } from '../line/facts.ts';
import { type ShiftStart, stampOf } from './clock.ts';
import type { ReportFilter } from './filter.ts';
import { gather } from './gather.ts';
import type { Gathered } from './gathered.types.ts';
import type { PersonPrint, ReportHead, ShiftHead } from './head.ts';
import type { ReportSource, ShiftSource } from './source.ts';

/** A shift with what was gathered of it. */
export type ShiftTold = { readonly source: ShiftSource; readonly told: Gathered; readonly start: ShiftStart };

export const tellShift = (source: ShiftSource): ShiftTold => {
  const told = gather(source);
  const { shift } = source.scenario ?? {};
  // A shift that broke off before its first tick has no opening fact: the scenario knows its date.
  const start = {
    date: told.opened.date || (shift?.date ?? ''),
    startsAt: told.opened.date === '' ? (shift?.startsAt ?? '00:00') : told.opened.startsAt,
  };
  return { source, told, start };
};

export const shiftHeadOf = ({ source, told, start }: ShiftTold): ShiftHead => ({
  shift: source.shift,
  id: told.opened.shift || (source.scenario?.shift.id ?? ''),
  name: source.scenario?.shift.name ?? told.opened.shift,
  plant: source.scenario?.plant.name ?? '',
  date: start.date,
  from: stampOf(start, 0),
  to: stampOf(start, told.endedMs ?? told.lastMs),
  ended: told.endedMs !== null,
  endedBy: told.endedBy === null ? null : nameOf(source, told.endedBy),
  runS: Math.round((told.endedMs ?? told.lastMs) / 1000),
  program: told.program,
  firstSeq: told.first,
  lastSeq: told.last.seq,
  seal:
    source.seal === null
      ? null
      : { ...source.seal, countersigned: source.seal.countersigned.map((one) => ({ ...one })) },
});

export const headOf = (
  shifts: readonly ShiftTold[],
  filter: ReportFilter,
  plantKey: ReportSource['plantKey'],
): ReportHead => {
  const of = shifts.at(-1)?.told.last ?? { seq: 0, hash: '', wall: '' };
  // The lab goes on with a lot after its shift: the report then rests on a later entry.
  const lab = shifts.at(-1)?.source.lab?.record;
  const last = lab !== undefined && lab.seq > of.seq ? lab : of;
  const heads = shifts.map(shiftHeadOf);
  return {
    plant: [...new Set(heads.map((one) => one.plant).filter((name) => name !== ''))].join(', '),
    shifts: heads,
    filter,
    record: last,
    plantKey,
  };
};

/** A person's name where the people file of the shift knows it, else the id as recorded; the line itself by its role. */
export const nameOf = (source: ShiftSource, who: Who): string => {
  if (who.role === 'line') return 'the line itself';
  return source.scenario?.people.find((one) => one.id === who.person)?.name ?? who.person;
};

export const personOf = (source: ShiftSource, who: Who): PersonPrint => ({
  id: who.person,
  name: nameOf(source, who),
  role: who.role,
});
