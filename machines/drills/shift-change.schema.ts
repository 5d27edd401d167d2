/** What a drill may change in the shift it starts from: its hour, weather, stone, tanks and orders. */
import { z } from 'zod';
import { shiftSchema } from '../scenario/shift.schema.ts';

const { startsAt, hours, weather, moisture, tanksC, orders } = shiftSchema.shape;

export const shiftChangeSchema = z.strictObject({
  startsAt: startsAt.optional(),
  hours: hours.optional(),
  weather: weather.optional(),
  moisture: moisture.unwrap().optional(),
  tanksC: tanksC.unwrap().optional(),
  orders: orders.optional(),
});
export type ShiftChange = z.infer<typeof shiftChangeSchema>;
