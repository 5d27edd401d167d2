/** Answers about worksheets: entered, corrected, set aside, brought back, photographs, retests. */
import type { Who } from '../line/facts.ts';
import type { Told } from '../record/book.types.ts';
import { lotOr, no, sampleOr, yes } from './answer-samples.ts';
import type { LabCommand } from './commands.ts';
import type { LabFact } from './facts.ts';
import { allLots, isDecided } from './lots.ts';
import { sheetContext, workSheet } from './sheet-work.ts';
import { judgementOf, specificationOf } from './standing.ts';
import type { LabLot, LabState, LabWorksheet } from './state.ts';
import { diff, SHEETS } from './worksheets/index.ts';
import { secondsOf } from './worksheets/plant-time.ts';

type Of<N extends LabCommand['do']> = Extract<LabCommand, { do: N }>;
type Answer = Told<LabFact>;

/** Tests that may be made on any sample, whatever it was drawn for. */
const ON_ANY_SAMPLE = ['moisture', 'coating'];

const nextNumber = (state: LabState, at: string): string => {
  const day = at.slice(2, 10).replaceAll('-', '');
  const before = state.numbering.day === day ? state.numbering.worksheets : 0;
  return `T-${day}-${before + 1}`;
};

const decidedReason = (lot: LabLot | null): string[] =>
  lot !== null && isDecided(lot)
    ? [`Lot ${lot.lot} is ${lot.state}: re-open the decision first, with a reason.`]
    : [];

const withSeconds = (time: string): string => (time.length === 16 ? `${time}:00` : time);

/** What the worksheet is made on, or why it cannot be. */
const placeOf = (
  state: LabState,
  command: Of<'enterWorksheet'>,
): { readonly lot: LabLot | null; readonly retest: boolean } | readonly string[] => {
  const { test, title } = SHEETS[command.sheet];
  if (command.lot === null) {
    if (command.sample !== null) return ['Name the lot the sample belongs to.'];
    if (command.subject === null)
      return ['Say what was tested: a sample of a lot, or a bin, a delivery or a material.'];
    const bins = state.now.absorptionPct.map((_, i) => String(i + 1));
    if (command.subject.kind === 'bin' && bins.length > 0 && !bins.includes(command.subject.id))
      return [`There is no bin ${command.subject.id}: the plant has ${bins.join(', ')}.`];
    return { lot: null, retest: false };
  }
  if (command.subject !== null) return ['It is either on a lot’s sample or on something else, not both.'];
  if (command.sample === null) return [`Name the sample of lot ${command.lot} it was made on.`];
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return [lot];
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return [sample];
  if (sample.state !== 'logged')
    return [
      sample.state === 'taken'
        ? `Sample ${sample.n} is taken and not logged yet: log it first.`
        : `Sample ${sample.n} is ${sample.state}: there is nothing in the lab to test.`,
    ];
  if (sample.test !== '' && sample.test !== test && !ON_ANY_SAMPLE.includes(test))
    return [
      `Sample ${sample.n} was drawn for ${sample.test}; “${title}” is for ${test}: choose the right sheet or sample.`,
    ];
  const made = lot.worksheets.filter(
    (one) => one.aside === null && one.sample === sample.n && one.test === test,
  );
  if (made.length === 0) return { lot, retest: false };
  const ordered = lot.retests.some((one) => !one.done && one.sample === sample.n && one.test === test);
  if (!ordered)
    return [
      `${made[0]?.id} holds the ${test} of sample ${sample.n} already: correct it, set it aside with a reason, or order a retest on the retained portion.`,
    ];
  if (sample.discarded || (sample.retainedKg ?? 0) === 0)
    return [`There is no retained portion of sample ${sample.n} left to test.`];
  return { lot, retest: true };
};

export const enterWorksheet = (
  state: LabState,
  command: Of<'enterWorksheet'>,
  by: Who,
  at: string,
): Answer => {
  const place = placeOf(state, command);
  if (!('lot' in place)) return no(...place);
  const { lot, retest } = place;
  const decided = decidedReason(lot);
  if (decided.length > 0) return no(...decided);
  const ended = command.readings.endedAt;
  const testedAt = withSeconds(
    command.testedAt ?? (typeof ended === 'string' && ended.length >= 16 ? ended : at),
  );
  if (secondsOf(testedAt) === null)
    return no(`There is no such time as ${testedAt.replace('T', ' ')}: enter when the test ended.`);
  if (testedAt > at)
    return no(
      `The test cannot have been made at ${testedAt.replace('T', ' ')}: it is ${at.replace('T', ' ')} now.`,
    );
  const sample = lot?.samples.find((one) => one.n === command.sample);
  if (sample?.takenAt != null && testedAt < sample.takenAt)
    return no(
      `The test cannot have been made at ${testedAt.replace('T', ' ')}, before its sample was taken (${sample.takenAt.replace('T', ' ')}).`,
    );
  const worked = workSheet(
    command.sheet,
    command.readings,
    sheetContext(state, lot, command.sample, at, retest),
  );
  if (!worked.ok) return no(...worked.because);
  return yes({
    is: 'worksheetEntered',
    worksheet: nextNumber(state, at),
    sheet: command.sheet,
    test: SHEETS[command.sheet].test,
    lot: command.lot,
    sample: command.sample,
    subject: command.subject,
    retest,
    readings: command.readings,
    results: worked.results,
    notes: worked.notes,
    departures: worked.departures,
    testedBy: command.testedBy ?? by.person,
    testedAt,
    balance: command.balance,
    simulated: command.simulated,
    remark: command.remark,
  });
};

/** A worksheet and its lot, wherever it is kept; null when the book has none of that number. */
export const findWorksheet = (
  state: LabState,
  id: string,
): { readonly sheet: LabWorksheet; readonly lot: LabLot | null } | null => {
  const other = state.others.find((one) => one.id === id);
  if (other !== undefined) return { sheet: other, lot: null };
  for (const lot of allLots(state)) {
    const sheet = lot.worksheets.find((one) => one.id === id);
    if (sheet !== undefined) return { sheet, lot };
  }
  return null;
};

const missingSheet = (id: string): Answer =>
  no(
    `The book has no worksheet ${id} at hand: look at its number; those of lots finished long ago are in the records.`,
  );

export const correctWorksheet = (state: LabState, command: Of<'correctWorksheet'>, at: string): Answer => {
  const found = findWorksheet(state, command.worksheet);
  if (found === null) return missingSheet(command.worksheet);
  const { sheet, lot } = found;
  const decided = decidedReason(lot);
  if (decided.length > 0) return no(...decided);
  if (sheet.aside !== null) return no(`${sheet.id} is set aside: bring it back first.`);
  const readings = { ...sheet.readings, ...command.changes };
  const changes = diff(sheet.readings, readings);
  if (changes.length === 0) return no('Nothing would change: the readings are those that stand there.');
  const worked = workSheet(sheet.sheet, readings, sheetContext(state, lot, sheet.sample, at, sheet.retest));
  if (!worked.ok) return no(...worked.because);
  return yes({
    is: 'worksheetCorrected',
    worksheet: sheet.id,
    lot: sheet.lot,
    changes,
    reason: command.reason,
    readings,
    results: worked.results,
    wasResults: sheet.results,
    notes: worked.notes,
    departures: worked.departures,
  });
};

/** The sheet is one of those that make its lot fail. */
const makesFail = (state: LabState, lot: LabLot | null, sheet: LabWorksheet): boolean =>
  lot !== null &&
  lot.failing.length > 0 &&
  judgementOf(state, lot, false)?.failing.some(
    ({ test, samples }) => test === sheet.test && sheet.sample !== null && samples.includes(sheet.sample),
  ) === true;

/** A result nobody likes is not made to go away by whoever found it. */
export const setWorksheetAside = (state: LabState, command: Of<'setWorksheetAside'>, by: Who): Answer => {
  const found = findWorksheet(state, command.worksheet);
  if (found === null) return missingSheet(command.worksheet);
  const decided = decidedReason(found.lot);
  if (decided.length > 0) return no(...decided);
  if (found.sheet.aside !== null) return no(`${found.sheet.id} is set aside already.`);
  const own = found.sheet.enteredBy === by.person || found.sheet.testedBy === by.person;
  if (own && makesFail(state, found.lot, found.sheet))
    return no(
      `${found.sheet.id} holds a result outside its limits: a second person sets it aside. Correct the reading that was wrong, or order a retest on the retained portion.`,
    );
  return yes({
    is: 'worksheetSetAside',
    worksheet: found.sheet.id,
    lot: found.sheet.lot,
    reason: command.reason,
  });
};

export const bringWorksheetBack = (state: LabState, command: Of<'bringWorksheetBack'>): Answer => {
  const found = findWorksheet(state, command.worksheet);
  if (found === null) return missingSheet(command.worksheet);
  const { sheet, lot } = found;
  const decided = decidedReason(lot);
  if (decided.length > 0) return no(...decided);
  if (sheet.aside === null) return no(`${sheet.id} counts already.`);
  const other = lot?.worksheets.find(
    (one) =>
      one.id !== sheet.id &&
      one.aside === null &&
      !one.retest &&
      !sheet.retest &&
      one.sample === sheet.sample &&
      one.test === sheet.test,
  );
  if (other !== undefined) return no(`${other.id} has taken its place: set that one aside first.`);
  return yes({ is: 'worksheetBroughtBack', worksheet: sheet.id, lot: sheet.lot, reason: command.reason });
};

export const attachPhoto = (state: LabState, command: Of<'attachPhoto'>): Answer => {
  const found = findWorksheet(state, command.worksheet);
  if (found === null) return missingSheet(command.worksheet);
  if (found.sheet.photos.some((photo) => photo.sha256 === command.sha256))
    return no('This photograph is attached already.');
  if (found.sheet.photos.length >= 12) return no('Twelve photographs are enough for one worksheet.');
  return yes({
    is: 'photoAttached',
    worksheet: found.sheet.id,
    lot: found.sheet.lot,
    sha256: command.sha256,
    caption: command.caption,
  });
};

export const setPhotoAside = (state: LabState, command: Of<'setPhotoAside'>): Answer => {
  const found = findWorksheet(state, command.worksheet);
  if (found === null) return missingSheet(command.worksheet);
  const photo = found.sheet.photos.find((one) => one.sha256 === command.sha256);
  if (photo === undefined) return no('This photograph is not on that worksheet.');
  if (photo.aside !== null) return no('This photograph is set aside already.');
  return yes({
    is: 'photoSetAside',
    worksheet: found.sheet.id,
    lot: found.sheet.lot,
    sha256: command.sha256,
    reason: command.reason,
  });
};

export const orderRetest = (state: LabState, command: Of<'orderRetest'>): Answer => {
  const lot = lotOr(state, command.lot);
  if (typeof lot === 'string') return no(lot);
  const sample = sampleOr(lot, command.sample);
  if (typeof sample === 'string') return no(sample);
  const decided = decidedReason(lot);
  if (decided.length > 0) return no(...decided);
  const made = lot.worksheets.filter(
    (one) => one.aside === null && one.sample === sample.n && one.test === command.test,
  );
  if (made.length === 0)
    return no(`Sample ${sample.n} has no ${command.test} yet: there is nothing to test again.`);
  if (lot.retests.some((one) => !one.done && one.sample === sample.n && one.test === command.test))
    return no('This retest is ordered already and not made yet.');
  const most = specificationOf(state, lot)?.retest.most ?? 1;
  if (made.filter((one) => one.retest).length >= most)
    return no(
      most === 0
        ? 'The specification knows no retest.'
        : `The specification allows ${most} retest${most === 1 ? '' : 's'} of a sample, and that is made.`,
    );
  if (sample.discarded || (sample.retainedKg ?? 0) === 0)
    return no(`There is no retained portion of sample ${sample.n} left: a retest cannot be made.`);
  return yes({
    is: 'retestOrdered',
    lot: lot.lot,
    sample: sample.n,
    test: command.test,
    reason: command.reason,
  });
};
