/** `drill`: a drill worked headless by a stand-in trainee, and what it came to. */
import { resolve } from 'node:path';
import type { Debrief } from '../../machines/drills/debrief.types.ts';
import { openForStandIn, workDrill } from '../../machines/drills/headless.ts';
import { debriefOf } from '../../machines/drills/run.ts';
import { TRAINEE_SKILLS, type TraineeSkill } from '../../machines/drills/trainee.ts';
import { DRILLS_FOLDER, drillFilesIn, drillOrError } from '../scenarios/drill-file.ts';
import { shownPath } from '../scenarios/load.ts';
import { numberOption, readOptions, textOption, UsageError } from './options.ts';
import { createProgress } from './progress.ts';

const SEED = 1;

export const DRILL_HELP = `patchyard drill <drill.yaml> [options]
patchyard drill --all [options]

Works a drill headless with a stand-in trainee, as fast as the machine can, and says what it came to:
the score with its reasons, what was unsafe, and what would have happened without the interlock.
The same file, trainee and seed give the same debrief.

  --as SKILL   ${TRAINEE_SKILLS.join(', ')} (good when left out; with --all, all three)
  --seed N     timing and instruments of what goes wrong (${SEED} when left out; 0 to 4294967295)
  --all        every drill that is shipped, as a table
  --json       print JSON on stdout: one object, or with --all a list
  -h, --help   this text

Training only: it does not replace licensed instruction, and this is no safety-rated controller.
Exit code 0 when the drill was worked to its end, passed or not; 1 when something was wrong; 2 when called wrongly.`;

const skillOf = (text: string | undefined): TraineeSkill | undefined => {
  if (text === undefined) return undefined;
  const skill = TRAINEE_SKILLS.find((one) => one === text);
  if (skill === undefined) throw new UsageError(`--as ${text} is not one of ${TRAINEE_SKILLS.join(', ')}.`);
  return skill;
};

type Worked = { readonly file: string; readonly skill: TraineeSkill; readonly debrief: Debrief };

/** One drill worked by each of the skills, from one and the same start. */
const work = (file: string, skills: readonly TraineeSkill[], seed: number): readonly Worked[] => {
  const { drill, scenario } = drillOrError(file);
  const opened = openForStandIn(drill, scenario, seed);
  return skills.map((skill) => ({
    file: shownPath(resolve(file)),
    skill,
    debrief: debriefOf(workDrill(opened, skill)),
  }));
};

/** What a program reads: the figures asked for most first, then the whole debrief without its traces. */
const asJson = ({ file, skill, debrief }: Worked) => {
  const { score, passed, competencies, unsafe, twin, truth, vapour, ribbon, ...rest } = debrief;
  return {
    score,
    passed,
    competencies,
    unsafe,
    file,
    as: skill,
    ...rest,
    instrumentsThatLied: truth.map(({ tag, label, lied }) => ({ tag, label, lied })),
    twin:
      twin === null
        ? null
        : {
            because: twin.because,
            fromMs: twin.fromMs,
            words: twin.words,
            caution: twin.caution,
            worstLelPct: twin.worstLelPct,
            guardedWorstLelPct: twin.guardedWorstLelPct,
            flameWithSolventMs: twin.flameWithSolventMs,
            massErrorKg: twin.massErrorKg,
          },
    samples: vapour.length,
    ribbonBlocks: ribbon.blocks.length,
  };
};

const clock = (ms: number, debrief: Debrief): string => {
  const s = Math.max(0, Math.round((ms - debrief.startMs) / 1000));
  return `${String(Math.floor(s / 60)).padStart(2)}:${String(s % 60).padStart(2, '0')}`;
};

const inWords = ({ skill, debrief }: Worked): string =>
  [
    `${debrief.drill.name} (level ${debrief.drill.level}), as ${skill}, seed ${debrief.seed}: ${debrief.ended}`,
    debrief.verdict,
    '',
    ...debrief.competencies.flatMap((one) => [
      `${one.name}: ${one.points} of ${one.of}`,
      ...one.reasons.map((reason) => `  ${reason}`),
    ]),
    '',
    'What went wrong in the plant',
    ...(debrief.incidents.length === 0
      ? ['  nothing']
      : debrief.incidents.map(
          (one) =>
            `  ${one.fromMs === null ? 'never' : clock(one.fromMs, debrief)}  ${one.text} (${one.what})`,
        )),
    '',
    'Unsafe',
    ...(debrief.unsafe.length === 0
      ? ['  nothing']
      : debrief.unsafe.map(
          (one) =>
            `  ${clock(one.atMs, debrief)}  ${one.kind}${one.times > 1 ? `, ${one.times} times` : ''}: ${one.text}`,
        )),
    '',
    'Without the interlock',
    ...(debrief.twin === null
      ? ['  It never had to step in.']
      : [
          `  ${clock(debrief.twin.fromMs, debrief)}  ${debrief.twin.because}`,
          `  ${debrief.twin.words}`,
          `  With it, the vapour reached ${debrief.twin.guardedWorstLelPct.toFixed(0)} %. ${debrief.twin.caution}`,
        ]),
  ].join('\n');

const tableOf = (list: readonly Worked[]): string => {
  const widest = Math.max(...list.map((one) => one.debrief.drill.name.length));
  return list
    .map(({ skill, debrief }) => {
      const fails = debrief.unsafe.filter((one) => one.fails).length;
      const name = `${debrief.drill.level}  ${debrief.drill.name.padEnd(widest)}  ${skill.padEnd(8)}`;
      const score = `${String(debrief.score).padStart(3)}  ${debrief.passed ? 'passed    ' : 'not passed'}`;
      return `${name}  ${score}  ${debrief.unsafe.length} unsafe${fails > 0 ? `, ${fails} that fail` : ''}`;
    })
    .join('\n');
};

const workAll = (only: TraineeSkill | undefined, seed: number): readonly Worked[] => {
  const files = drillFilesIn(DRILLS_FOLDER);
  const skills = only === undefined ? TRAINEE_SKILLS : [only];
  const progress = createProgress(process.stderr, 'all drills');
  const worked: Worked[] = [];
  for (const file of files) {
    worked.push(...work(file, skills, seed));
    progress.show(worked.length / (files.length * skills.length));
  }
  progress.clear();
  return worked;
};

export const drillCommand = async (args: readonly string[]): Promise<number> => {
  const { values, files } = readOptions(args, {
    as: { type: 'string' },
    seed: { type: 'string' },
    all: { type: 'boolean' },
    json: { type: 'boolean' },
  });
  if (values.help === true) {
    console.log(DRILL_HELP);
    return 0;
  }
  const skill = skillOf(textOption(values, 'as'));
  const seed = numberOption(values, 'seed', 0, 0xffffffff) ?? SEED;
  if (values.all === true) {
    if (files.length > 0) throw new UsageError('--all takes no file.');
    const worked = workAll(skill, seed);
    console.log(values.json === true ? JSON.stringify(worked.map(asJson)) : tableOf(worked));
    return 0;
  }
  const [file] = files;
  if (file === undefined || files.length > 1) throw new UsageError('drill needs one drill file, or --all.');
  for (const worked of work(file, [skill ?? 'good'], seed))
    console.log(values.json === true ? JSON.stringify(asJson(worked)) : inWords(worked));
  return 0;
};
