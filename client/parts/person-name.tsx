/** A person by name: the record keeps ids, and people read names. */
import { usePersonName } from '../live/people.ts';

export const PersonName = ({ id }: { readonly id: string }) => usePersonName()(id);
