/** Stands in for the live socket on a page without a server: nothing comes, and what is sent is refused in words. */
import type { Answer } from '../../machines/live/protocol.ts';
import type { OpenDriver } from '../live/driver.ts';

const NO_LINE: Answer = { ok: false, because: ['This page stands alone: there is no line behind it.'] };

export const openDriver: OpenDriver = () => ({
  iAm: async () => NO_LINE,
  command: async () => NO_LINE,
  run: async () => NO_LINE,
  again: () => undefined,
});
