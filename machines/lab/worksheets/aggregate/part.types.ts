/** One of the tests of aggregate: its fields and its arithmetic. */
import type { Page } from '../page.ts';
import type { Values } from '../read.ts';
import type { FieldSpec } from '../sheet.types.ts';

export type AggregatePart = {
  readonly basis: string;
  readonly fields: readonly FieldSpec[];
  readonly work: (values: Values, page: Page) => void;
};
