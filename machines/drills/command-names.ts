/** The names of all commands, read off their schemas so that a drill file can be held against them. */
import { type CommandName, commandSchema } from '../line/commands.ts';

export const COMMAND_NAMES: readonly CommandName[] = commandSchema.options.map((one) => one.shape.do.value);
