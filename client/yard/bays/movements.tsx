/** What was moved, counted, bagged, thrown away and brought back by hand; each can be taken back with a reason. */

import { useState } from 'react';
import type { Movement } from '../../../machines/yard/stock/state.types.ts';
import type { PlaceView } from '../../../machines/yard/stock/views/bays.ts';
import { PersonName } from '../../parts/person-name.tsx';
import { AskDialog, MayButton, ReasonField, Scroll } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, when } from '../stock/words.ts';

export function MovementsPart({
  book,
  movements,
  places,
}: {
  readonly book: StockHere;
  readonly movements: readonly Movement[];
  readonly places: readonly PlaceView[];
}) {
  const [open, setOpen] = useState<Movement | null>(null);
  const [reason, setReason] = useState('');
  const name = (end: string): string =>
    places.find((one) => one.place === end)?.name ?? end.replace(':', ' ');
  const go = async (): Promise<boolean> =>
    open !== null &&
    book.put({ do: 'reverseMovement', movement: open.id, reason }, `${open.id} has been taken back.`);
  return (
    <section className="card stack" aria-label="Movements by hand">
      <h2>Movements by hand</h2>
      {movements.length === 0 ? (
        <p className="soft">Nothing has been moved, counted or thrown away by hand.</p>
      ) : (
        <Scroll label="Table of movements">
          <table className="sk-table">
            <thead>
              <tr>
                <th scope="col">Movement</th>
                <th scope="col">What</th>
                <th scope="col" className="num">
                  Mass
                </th>
                <th scope="col">Reason</th>
                <th scope="col">
                  <span className="hidden-words">Take back</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {movements.slice(0, 30).map((one) => (
                <tr key={one.id}>
                  <th scope="row" className="num">
                    {one.id}
                    <br />
                    <span className="soft">
                      {when(one.at)}, <PersonName id={one.by.person} />
                    </span>
                  </th>
                  <td>
                    {one.what}: {name(one.from)} to {name(one.to)}
                    {one.lots.length > 0 && (
                      <span className="soft num"> lots {one.lots.map((lot) => lot.lot).join(', ')}</span>
                    )}
                  </td>
                  <td className="num">{mass(one.grams / 1000)}</td>
                  <td>{one.reason}</td>
                  <td>
                    {one.reversedBy !== null ? (
                      <span className="soft">taken back by {one.reversedBy}</span>
                    ) : (
                      !one.what.startsWith('reversed') && (
                        <MayButton
                          book={book}
                          what="reverseMovement"
                          onClick={() => {
                            setReason('');
                            setOpen(one);
                          }}
                        >
                          Take back
                        </MayButton>
                      )
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
      {open !== null && (
        <AskDialog
          title={`Take back ${open.id}`}
          go="Take it back"
          book={book}
          onGo={go}
          onClose={() => setOpen(null)}
        >
          <p>
            {mass(open.grams / 1000)} go from {name(open.to)} back to {name(open.from)}. Both movements stay
            in the record.
          </p>
          <ReasonField value={reason} onChange={setReason} />
        </AskDialog>
      )}
    </section>
  );
}
