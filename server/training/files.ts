/** Where training is kept: sessions under way, ended ones with what they came to; apart from the plant's record. */
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Attempt } from '../../machines/live/training.ts';
import { makeFolder } from '../store/make-folder.ts';

export type TrainingFiles = {
  readonly liveLog: (session: string) => string;
  readonly endedLog: (session: string) => string;
  readonly live: () => readonly string[];
  readonly isEnded: (session: string) => boolean;
  readonly attempts: () => readonly Attempt[];
  readonly debrief: (session: string) => unknown;
  /** What a session came to; on the disk when this returns. */
  readonly keep: (attempt: Attempt, debrief: unknown) => void;
  /** Puts the log of a session whose outcome is kept with the ended ones. */
  readonly moveToEnded: (session: string) => void;
  /** Puts a log that cannot be read out of the way, so that it is neither lost nor in the way. */
  readonly setAside: (session: string) => string;
};

const syncFolder = (folder: string): void => {
  const fd = openSync(folder, 'r');
  try {
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
};

/** Whole or not at all. */
const writeWhole = (file: string, text: string): void => {
  const fresh = `${file}.new`;
  const fd = openSync(fresh, 'w');
  try {
    writeSync(fd, text);
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
  renameSync(fresh, file);
};

const LOG = '.log.ndjson';

/** Opens the training folder inside a data folder, made when missing. */
export const openTrainingFiles = (dataFolder: string): TrainingFiles => {
  const [live, ended, aside] = ['under-way', 'ended', 'set-aside'].map((name) =>
    join(dataFolder, 'training', name),
  ) as [string, string, string];
  for (const folder of [live, ended]) makeFolder(folder);
  const at = (folder: string, name: string) => join(folder, name);
  return {
    liveLog: (session) => at(live, `${session}${LOG}`),
    endedLog: (session) => at(ended, `${session}${LOG}`),
    live: () =>
      readdirSync(live)
        .filter((name) => name.endsWith(LOG))
        .map((name) => name.slice(0, -LOG.length))
        .sort(),
    isEnded: (session) => existsSync(at(ended, `${session}.attempt.json`)),
    attempts: () =>
      readdirSync(ended)
        .filter((name) => name.endsWith('.attempt.json'))
        .map((name) => JSON.parse(readFileSync(at(ended, name), 'utf8')) as Attempt),
    debrief: (session) => JSON.parse(readFileSync(at(ended, `${session}.debrief.json`), 'utf8')),
    keep: (attempt, debrief) => {
      writeWhole(at(ended, `${attempt.session}.debrief.json`), JSON.stringify(debrief));
      writeWhole(at(ended, `${attempt.session}.attempt.json`), JSON.stringify(attempt));
      syncFolder(ended);
    },
    moveToEnded: (session) => {
      renameSync(at(live, `${session}${LOG}`), at(ended, `${session}${LOG}`));
      syncFolder(ended);
      syncFolder(live);
    },
    setAside: (session) => {
      mkdirSync(aside, { recursive: true });
      const place = at(aside, `${session}${LOG}`);
      renameSync(at(live, `${session}${LOG}`), place);
      return place;
    },
  };
};
