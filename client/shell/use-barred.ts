/** Whether a command would be refused to this console whatever the line thinks of it; its button is dashed then. */
import type { CommandName } from '../../machines/line/commands.ts';
import { whyNot } from '../live/may.ts';
import { useStandpoint } from '../live/use-standpoint.ts';

export const useBarred = (name: CommandName): boolean => whyNot(name, useStandpoint()).length > 0;
