/** Published figures an alarm system is held against, each with its source and how far that was seen. */

export type Published = {
  readonly id: string;
  readonly words: string;
  readonly target: string;
  readonly source: string;
  readonly status: 'seen in a summary' | 'from memory' | 'common practice, no source';
};

/** ISA-18.2: a flood starts above 10 alarms in 10 minutes and ends below 5 in 10 minutes. Seen in a summary. */
export const FLOOD = { windowS: 600, startsAbove: 10, endsBelow: 5 } as const;

/** An alarm that is raised three times or more within a minute chatters: ISA-18.2, first-pass criterion, from memory. */
export const CHATTER = { times: 3, withinS: 60 } as const;

/** Raised and gone again within so many seconds, before anybody acted: fleeting. Common practice, no source. */
export const FLEETING_S = 10;

/** An alarm that stands for so long is stale: ISA-18.2, from memory. */
export const STALE_S = 24 * 3600;

/** Standing so long within a shift is worth a look. Common practice, no source. */
export const LONG_STANDING_S = 3600;

export const PUBLISHED = {
  avgPerTenMin: {
    id: 'avgPerTenMin',
    words: 'Average in 10 minutes',
    target: '1 or fewer',
    source: 'EEMUA 191, steady running',
    status: 'seen in a summary',
  },
  peakPerTenMin: {
    id: 'peakPerTenMin',
    words: 'Most in any 10 minutes',
    target: '10 or fewer',
    source: 'ISA-18.2; EEMUA 191, upset',
    status: 'seen in a summary',
  },
  avgPerHourIsa: {
    id: 'avgPerHourIsa',
    words: 'Average in an hour',
    target: '6 very likely acceptable, 12 the most manageable',
    source: 'ISA-18.2-2016 Table 7',
    status: 'from memory',
  },
  avgPerHourEemua: {
    id: 'avgPerHourEemua',
    words: 'Average in an hour',
    target: '5 or fewer',
    source: 'EEMUA 191',
    status: 'seen in a summary',
  },
  peakPerHour: {
    id: 'peakPerHour',
    words: 'Most in any hour',
    target: '15 or fewer',
    source: 'EEMUA 191',
    status: 'seen in a summary',
  },
  perDayIsa: {
    id: 'perDayIsa',
    words: 'In a day of 24 running hours',
    target: '150 very likely acceptable, 300 the most manageable',
    source: 'ISA-18.2-2016 Table 7',
    status: 'from memory',
  },
  timeInFlood: {
    id: 'timeInFlood',
    words: 'Time in flood',
    target: 'below about 1 %',
    source: 'ISA-18.2',
    status: 'seen in a summary',
  },
  chattering: {
    id: 'chattering',
    words: 'Chattering and fleeting alarms',
    target: 'none',
    source: 'ISA-18.2-2016 Table 7',
    status: 'from memory',
  },
  stale: {
    id: 'stale',
    words: 'Stale alarms in a day',
    target: 'fewer than 5',
    source: 'ISA-18.2-2016 Table 7',
    status: 'from memory',
  },
  topTen: {
    id: 'topTen',
    words: 'Share of the ten most frequent',
    target: 'about 1 to 5 %',
    source: 'ISA-18.2-2016 Table 7',
    status: 'from memory',
  },
  priorities: {
    id: 'priorities',
    words: 'Spread low / medium / high',
    target: 'about 80 / 15 / 5 %',
    source: 'EEMUA 191',
    status: 'seen in a summary',
  },
} as const satisfies Record<string, Published>;

export type PublishedId = keyof typeof PUBLISHED;
