/** A load made out in few taps: the mix that may leave, the rows of a patch list it is for, the vehicle. */
import { useState } from 'react';
import type { PatchList } from '../../../machines/yard/patches/patch.types.ts';
import type { StockView } from '../../../machines/yard/stock/view.ts';
import type { MixReady } from '../../../machines/yard/stock/views/loads.ts';
import { useLedger } from '../../live/ledger.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { NumberField, SelectField, TextField } from '../stock/parts.tsx';
import type { StockHere } from '../stock/use-stock.ts';
import { mass, numberOf } from '../stock/words.ts';

const ALL_ROUTES = '*';

const heldWords = (held: MixReady['held']): string =>
  held.length === 0
    ? ''
    : `; held back: ${held.map((one) => `${one.lot} (${one.lab}, ${mass(one.kg)})`).join(', ')}`;

function MixChoice({
  ready,
  chosen,
  onChoose,
}: {
  readonly ready: MixReady;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}) {
  return (
    <button type="button" className="sk-mix" aria-pressed={chosen} onClick={onChoose}>
      <strong>
        {ready.mixName}
        {ready.as === 'bags' ? ', bags' : ''}
      </strong>
      <span className="num">
        {mass(ready.freeKg)} may leave{ready.as === 'bags' ? ` in ${ready.bags} bags` : ''}
        {ready.promisedKg > 0 && `, ${mass(ready.promisedKg)} promised`}
      </span>
      <span className="soft num">
        {ready.lots.length === 0 ? 'no lot of it may leave' : `next: lot ${ready.lots[0]?.lot}`}
        {heldWords(ready.held)}
      </span>
    </button>
  );
}

type Row = PatchList['patches'][number];
const leftKg = (list: PatchList, row: Row): number =>
  Math.max(0, row.takeOff.mixKg - (list.laidKg[String(row.row)] ?? 0));

/** Patches still to be laid from a load under way, and that load. */
const onLoads = (loads: StockView['loads']): ReadonlyMap<string, string> =>
  new Map(
    loads
      .filter(({ state }) => state === 'made out' || state === 'on the road')
      .flatMap((load) =>
        load.for
          .filter(({ patch }) => !load.laid.some((one) => one.patch === patch))
          .map(({ patch }) => [patch, load.id] as const),
      ),
  );

export function MakeOut({
  book,
  view,
  onClose,
}: {
  readonly book: StockHere;
  readonly view: StockView;
  readonly onClose: () => void;
}) {
  const patches = useLedger('patches');
  const [key, setKey] = useState('');
  const [listId, setListId] = useState('');
  const [route, setRoute] = useState(ALL_ROUTES);
  const [rows, setRows] = useState<ReadonlySet<number>>(new Set());
  const [vehicle, setVehicle] = useState('');
  const [crew, setCrew] = useState('');
  const [kgText, setKgText] = useState('');
  const ready = view.ready.find((one) => `${one.mixId} ${one.as}` === key);
  const lists = (patches.view?.lists ?? []).filter((one) => one.state === 'open');
  const list = lists.find((one) => one.id === listId);
  const routes = [...new Set((list?.patches ?? []).map((one) => one.route))];
  const shown = (list?.patches ?? []).filter(
    (one) => one.takenOut === null && (route === ALL_ROUTES || one.route === route),
  );
  const taken = onLoads(view.loads);
  const loadOf = (row: Row): string | undefined => taken.get(`${list?.id}/${row.row}`);
  const free = shown.filter((one) => loadOf(one) === undefined);
  const chosen = free.filter((one) => rows.has(one.row));
  const chosenKg = list === undefined ? 0 : chosen.reduce((sum, one) => sum + leftKg(list, one), 0);
  const wantedKg = list === undefined ? numberOf(kgText) : chosenKg;
  const toggle = (row: number) => {
    const next = new Set(rows);
    if (!next.delete(row)) next.add(row);
    setRows(next);
  };
  const pickFitting = () => {
    if (list === undefined || ready === undefined) return;
    let roomKg = ready.freeKg;
    const fit = free.filter((one) => {
      const kg = leftKg(list, one);
      if (kg <= 0 || kg > roomKg) return false;
      roomKg -= kg;
      return true;
    });
    setRows(new Set(fit.map((one) => one.row)));
  };
  const go = async () => {
    if (ready === undefined) return book.asked.explain(['Choose the mix first.']);
    if (list === undefined && !(wantedKg > 0))
      return book.asked.explain(['Choose a patch list and its rows, or write the kilograms.']);
    const done = await book.put(
      {
        do: 'makeOutLoad',
        mix: ready.mixId,
        as: ready.as,
        vehicle: vehicle.trim(),
        crew,
        list: list?.id ?? '',
        route: route === ALL_ROUTES ? '' : route,
        for:
          list === undefined
            ? []
            : chosen.map((one) => ({
                patch: `${list.id}/${one.row}`,
                kg: Math.round(leftKg(list, one) * 1000) / 1000 || one.takeOff.mixKg,
              })),
        ...(list === undefined ? { kg: wantedKg } : {}),
      },
      'Load made out.',
    );
    if (done) onClose();
  };
  return (
    <section className="card stack" aria-label="Make out a load">
      <h2>Make out a load</h2>
      {view.ready.length === 0 ? (
        <p>No mix lies in the bays: there is nothing to load.</p>
      ) : (
        <div className="sk-mixes">
          {view.ready.map((one) => {
            const its = `${one.mixId} ${one.as}`;
            return <MixChoice key={its} ready={one} chosen={its === key} onChoose={() => setKey(its)} />;
          })}
        </div>
      )}
      <div className="sk-fields">
        <SelectField
          label="For patch list"
          value={listId === '' ? 'none' : listId}
          onChange={(value) => {
            setListId(value === 'none' ? '' : value);
            setRoute(ALL_ROUTES);
            setRows(new Set());
          }}
          choices={[
            ['none', 'no list: kilograms by hand'],
            ...lists.map((one) => [one.id, `${one.name} (${one.id})`] as const),
          ]}
        />
        {list !== undefined && (
          <SelectField
            label="Route"
            value={route}
            onChange={(value) => {
              setRoute(value);
              setRows(new Set());
            }}
            choices={[
              [ALL_ROUTES, 'all'],
              ...routes.map((one) => [one, one === '' ? 'no route' : one] as const),
            ]}
          />
        )}
        {list === undefined && <NumberField label="Kilograms wanted" value={kgText} onChange={setKgText} />}
        <TextField label="Vehicle" value={vehicle} onChange={setVehicle} max={40} />
        <TextField label="Crew" value={crew} onChange={setCrew} />
      </div>
      {list !== undefined && (
        <div className="stack">
          <div className="row">
            <button
              type="button"
              className="button"
              onClick={() => setRows(new Set(free.map((one) => one.row)))}
            >
              All {free.length}
            </button>
            <button type="button" className="button" onClick={pickFitting}>
              As many as there is mix for
            </button>
            <button type="button" className="button" onClick={() => setRows(new Set())}>
              None
            </button>
            <span className="num">
              {chosen.length} chosen, <strong>{mass(chosenKg)}</strong>
            </span>
          </div>
          <fieldset className="sk-rows">
            <legend className="hidden-words">Rows of {list.name}</legend>
            {shown.map((one) => (
              <label key={one.row}>
                <input
                  type="checkbox"
                  checked={rows.has(one.row) && loadOf(one) === undefined}
                  disabled={loadOf(one) !== undefined}
                  onChange={() => toggle(one.row)}
                />
                <span>
                  <span className="num">{one.row}</span> {one.place}
                  {one.route !== '' && <span className="soft"> {one.route}</span>}
                </span>
                <span className="num">
                  {loadOf(one) !== undefined ? (
                    <span className="soft">on {loadOf(one)}</span>
                  ) : leftKg(list, one) > 0 ? (
                    mass(leftKg(list, one))
                  ) : (
                    <span className="soft">filled</span>
                  )}
                </span>
              </label>
            ))}
          </fieldset>
        </div>
      )}
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      <div className="row dialog-actions">
        <button type="button" className="button" onClick={onClose}>
          Back
        </button>
        <button
          type="button"
          className="button primary"
          aria-busy={book.asked.waiting}
          onClick={() => void go()}
        >
          Make it out{Number.isFinite(wantedKg) && wantedKg > 0 ? `: ${mass(wantedKg)}` : ''}
        </button>
      </div>
    </section>
  );
}
