/** The lessons there are, in the order they are best taken. */
export const LESSONS = [
  { id: 'binder', name: 'Binder temperature', about: 'Why the working window lies above the flash point' },
  { id: 'purge', name: 'Purge', about: 'What 4, 5 and 6.35 volumes of air leave in the drum' },
  { id: 'hood', name: 'Hood fan lost', about: 'Minutes from a lost fan to 10, 20 and 100 % LEL' },
  { id: 'day', name: 'Pile and tank vent', about: 'Where solvent goes through a day and a night' },
  {
    id: 'aggregate',
    name: 'Aggregate temperature',
    about: 'Ten degrees more, and the vapour doubles or worse',
  },
] as const;

export type LessonId = (typeof LESSONS)[number]['id'];

export const isLesson = (id: string): id is LessonId => LESSONS.some((lesson) => lesson.id === id);
