/** What the book of job mixes takes from the opening of a shift: its plant, its morning, and mixes it was opened with. */
import { canonical } from '../../record/canonical.ts';
import type { Mix } from '../../scenario/mix.schema.ts';
import { plantThisMorning, type Scenario } from '../../scenario/shift.schema.ts';
import type { MixesState, MixVersion, VersionState } from './state.ts';

export const sameContent = (one: Mix, other: Mix): boolean => canonical(one) === canonical(other);

const fromFile = (content: Mix, state: VersionState, at: string, shift: string): MixVersion => ({
  content,
  state,
  draftedBy: null,
  draftedAt: at,
  why: `came with the files of shift ${shift}`,
  from: null,
  approvedBy: null,
  approvedAt: state === 'approved' ? at : null,
  note: '',
  tookPlaceOf: null,
  withdrawn: null,
  differs: null,
});

/** Versions of one mix after a shift was opened with a file of it: an unknown one joins, a newer one is in force. */
const withFile = (
  versions: readonly MixVersion[],
  file: Mix,
  at: string,
  shift: string,
): readonly MixVersion[] => {
  const known = versions.find((one) => one.content.version === file.version);
  if (known !== undefined) {
    if (sameContent(known.content, file) || known.differs !== null) return versions;
    const differs = `shift ${shift} was opened with a file of this version that says something else`;
    return versions.map((one) => (one === known ? { ...one, differs } : one));
  }
  const inForce = versions.find((one) => one.state === 'approved');
  const newer = inForce === undefined || inForce.content.version < file.version;
  const others = newer
    ? versions.map((one) => (one === inForce ? { ...one, state: 'superseded' as const } : one))
    : versions;
  const added = {
    ...fromFile(file, newer ? 'approved' : 'superseded', at, shift),
    tookPlaceOf: newer ? (inForce?.content.version ?? null) : null,
  };
  return [...others, added].sort((a, b) => a.content.version - b.content.version);
};

/** The state after a shift was opened. */
export const afterOpening = (state: MixesState, scenario: Scenario, at: string): MixesState => {
  const { shift } = scenario;
  const mixes: { [mix: string]: readonly MixVersion[] } = { ...state.mixes };
  for (const file of scenario.mixes) mixes[file.id] = withFile(mixes[file.id] ?? [], file, at, shift.id);
  const plant = plantThisMorning(scenario.plant, shift);
  return {
    ...state,
    mixes,
    running: Object.fromEntries(scenario.mixes.map((file) => [file.id, file.version])),
    plant,
    morning: { date: shift.date, startsAt: shift.startsAt, startC: shift.weather.startC },
  };
};
