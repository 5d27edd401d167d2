/** What a trace is asked from, kept in the address of the page, so that it can be linked and gone back to. */
import type { TraceFrom } from '../../../machines/yard/trace/traced.types.ts';

export const KIND_WORDS: { readonly [K in TraceFrom['kind']]: string } = {
  delivery: 'Delivery',
  batch: 'Batch',
  lot: 'Lot',
  load: 'Load',
  patch: 'Patch',
  operator: 'Operator',
  scale: 'Scale',
};
const KINDS = Object.keys(KIND_WORDS) as readonly TraceFrom['kind'][];

/** Null when the address asks for nothing. */
export const fromOf = (search: string): TraceFrom | null => {
  const params = new URLSearchParams(search);
  const kind = KINDS.find((one) => one === params.get('kind'));
  const id = params.get('id')?.trim() ?? '';
  if (kind === undefined || id === '') return null;
  if (kind !== 'operator' && kind !== 'scale') return { kind, id };
  const [from, to] = [params.get('from') ?? '', params.get('to') ?? ''];
  return { kind, id, ...(from === '' ? {} : { from }), ...(to === '' ? {} : { to }) };
};

export const queryOf = (from: TraceFrom): string => new URLSearchParams({ ...from }).toString();

export const pathOf = (from: TraceFrom): string => `/yard/trace?${queryOf(from)}`;
