/** Every value of the drawing as a table, for screen readers. */
import type { LineView } from '../../machines/line/view.types.ts';
import { askedOf, readingsOf } from './facts.ts';
import type { Item } from './items.ts';
import type { Notes } from './notes.ts';

type Props = { readonly view: LineView; readonly items: readonly Item[]; readonly notes: Notes };

export const ValueTable = ({ view, items, notes }: Props) => (
  <div className="pd-hidden">
    <table>
      <caption>Plant values</caption>
      <thead>
        <tr>
          <th scope="col">Item</th>
          <th scope="col">Readings</th>
          <th scope="col">Asked to</th>
          <th scope="col">Abnormal</th>
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <tr key={item.id}>
            <th scope="row">{item.name}</th>
            <td>
              {readingsOf(item, view)
                .map((row) => `${row.label} ${row.value}`)
                .join('; ')}
            </td>
            <td>{askedOf(item.id, view).join('; ')}</td>
            <td>{(notes[item.id] ?? []).map((note) => note.words).join('; ') || 'nothing'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
