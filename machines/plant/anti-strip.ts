/** Anti-strip agent from its pump, metered straight into the mixer. */
export {
  type MeteredFlow as AntiStripLine,
  NO_FLOW as NO_ANTI_STRIP,
  stepMeteredFlow as stepAntiStrip,
} from './metered-flow.ts';
