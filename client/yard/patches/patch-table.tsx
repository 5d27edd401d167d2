/** The holes of a list, a hundred at a time, with the section of the one chosen. */
import { useState } from 'react';
import type { Basis } from '../../../machines/yard/patches/basis.ts';
import type { Patch, PatchList } from '../../../machines/yard/patches/patch.types.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { PatchDialog } from './patch-dialog.tsx';
import { Scroll } from './scroll.tsx';
import { SectionPicture } from './section-picture.tsx';
import type { PatchesHere } from './use-patches.ts';
import { kg, layers, mass, routeName, sizes } from './words.ts';

const A_PAGE = 100;
const ALL = '*';

function PatchRow({
  patch,
  laidKg,
  chosen,
  onChoose,
}: {
  readonly patch: Patch;
  readonly laidKg: number;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}) {
  const { takeOff } = patch;
  return (
    <tr className={patch.takenOut === null ? '' : 'yp-out-row'} aria-selected={chosen}>
      <td>
        <button type="button" className="button quiet num" aria-pressed={chosen} onClick={onChoose}>
          {patch.row}
        </button>
      </td>
      <td>
        {patch.place}
        <span className="soft yp-under">{routeName(patch.route)}</span>
      </td>
      <td className="num">
        {sizes(patch)}
        <span className="soft yp-under">
          {patch.compactedBy}
          {patch.baseReached ? ', base reached' : ''}
          {patch.surface === 'concrete' ? ', in concrete' : ''}
        </span>
      </td>
      <td className="num">{patch.takenOut === null ? layers(takeOff.layersMm) : 'taken out'}</td>
      <td className="num">{kg(takeOff.mixKg)}</td>
      <td className="num">{kg(takeOff.tackKg, 2)}</td>
      <td className="num">{kg(takeOff.primeKg, 2)}</td>
      <td className="num">{kg(takeOff.crusherRunKg)}</td>
      <td className="num">{kg(takeOff.sandKg)}</td>
      <td className="num">{laidKg > 0 ? kg(laidKg) : '–'}</td>
    </tr>
  );
}

function Chosen({
  list,
  patch,
  basis,
  book,
}: {
  readonly list: PatchList;
  readonly patch: Patch;
  readonly basis: Basis;
  readonly book: PatchesHere;
}) {
  const [doing, setDoing] = useState<'change' | 'out' | null>(null);
  const { takeOff, takenOut } = patch;
  const id = `${list.id}/${patch.row}`;
  return (
    <section className="card stack yp-chosen" aria-label={`Patch ${patch.row}`}>
      <h3>
        {patch.row}. {patch.place}
      </h3>
      <p className="soft">
        {sizes(patch)}, {patch.compactedBy}. Cut back {basis.trimMm} mm each side: {takeOff.areaM2} m².
      </p>
      <SectionPicture patch={patch} trimMm={basis.trimMm} />
      <p>
        {mass(takeOff.mixKg)} of mix in{' '}
        {takeOff.layersMm.length === 1 ? 'one layer' : `${takeOff.layersMm.length} layers`} (
        {layers(takeOff.layersMm)} mm), {takeOff.tackKg} kg tack
        {takeOff.primeKg > 0 ? `, ${takeOff.primeKg} kg prime` : ''}
        {takeOff.crusherRunKg > 0 ? `, ${mass(takeOff.crusherRunKg)} crusher run` : ''}, {takeOff.sandKg} kg
        sand.
      </p>
      {takenOut !== null && (
        <p className="row">
          <Mark shape="diamond" />
          Taken out: {takenOut}
        </p>
      )}
      <Refusal because={doing === 'change' ? null : book.asked.refusal} onClose={book.asked.clear} />
      <div className="row">
        {takenOut === null && (
          <button type="button" className="button" onClick={() => setDoing('change')}>
            Change
          </button>
        )}
        <button type="button" className="button" onClick={() => setDoing('out')}>
          {takenOut === null ? 'Take out' : 'Put back'}
        </button>
      </div>
      {doing === 'change' && (
        <PatchDialog list={list.id} patch={patch} basis={basis} book={book} onClose={() => setDoing(null)} />
      )}
      {doing === 'out' && (
        <ConfirmDialog
          title={takenOut === null ? `Take out ${id}` : `Put back ${id}`}
          words={
            takenOut === null
              ? 'The hole stays in the record and counts for nothing in this list. It can be put back.'
              : 'The hole counts in this list again.'
          }
          go={takenOut === null ? 'Take out' : 'Put back'}
          needsReason
          onGo={(reason) => {
            setDoing(null);
            const of = { list: list.id, row: patch.row, reason };
            void book.put(
              takenOut === null ? { do: 'takeOutPatch', ...of } : { do: 'putBackPatch', ...of },
              takenOut === null ? `Patch ${patch.row} taken out.` : `Patch ${patch.row} put back.`,
            );
          }}
          onClose={() => setDoing(null)}
        />
      )}
    </section>
  );
}

export function PatchTable({
  list,
  basis,
  book,
}: {
  readonly list: PatchList;
  readonly basis: Basis;
  readonly book: PatchesHere;
}) {
  const [route, setRoute] = useState(ALL);
  const [page, setPage] = useState(0);
  const [row, setRow] = useState<number | null>(list.patches[0]?.row ?? null);
  const choose = (next: number) => {
    setRow(next);
    // On a narrow screen its section stands above the table.
    requestAnimationFrame(() => document.querySelector('.yp-chosen')?.scrollIntoView({ block: 'nearest' }));
  };
  const routes = [...new Set(list.patches.map((patch) => patch.route))];
  const of = list.patches.filter((patch) => route === ALL || patch.route === route);
  const pages = Math.max(1, Math.ceil(of.length / A_PAGE));
  const at = Math.min(page, pages - 1);
  const patch = list.patches.find((one) => one.row === row);
  return (
    <div className="yp-split">
      <section className="card stack" aria-labelledby="yp-holes">
        <div className="yp-head">
          <h2 id="yp-holes">Holes</h2>
          <div className="row">
            {routes.length > 1 && (
              <label className="row">
                Route
                <select
                  value={route}
                  onChange={(event) => {
                    setRoute(event.target.value);
                    setPage(0);
                  }}
                >
                  <option value={ALL}>all</option>
                  {routes.map((one) => (
                    <option key={one} value={one}>
                      {routeName(one)}
                    </option>
                  ))}
                </select>
              </label>
            )}
            {pages > 1 && (
              <div className="row">
                <button type="button" className="button" disabled={at === 0} onClick={() => setPage(at - 1)}>
                  ‹ Before
                </button>
                <span className="num">
                  {at * A_PAGE + 1}–{Math.min(of.length, (at + 1) * A_PAGE)} of {of.length}
                </span>
                <button
                  type="button"
                  className="button"
                  disabled={at === pages - 1}
                  onClick={() => setPage(at + 1)}
                >
                  Next ›
                </button>
              </div>
            )}
          </div>
        </div>
        <Scroll label="Holes of this list">
          <table className="yp-table yp-holes">
            <thead>
              <tr>
                <th scope="col">Row</th>
                <th scope="col">Place and route</th>
                <th scope="col">Size</th>
                <th scope="col" className="num">
                  Layers, mm
                </th>
                <th scope="col" className="num">
                  Mix, kg
                </th>
                <th scope="col" className="num">
                  Tack, kg
                </th>
                <th scope="col" className="num">
                  Prime, kg
                </th>
                <th scope="col" className="num">
                  Crusher run, kg
                </th>
                <th scope="col" className="num">
                  Sand, kg
                </th>
                <th scope="col" className="num">
                  Laid, kg
                </th>
              </tr>
            </thead>
            <tbody>
              {of.slice(at * A_PAGE, (at + 1) * A_PAGE).map((one) => (
                <PatchRow
                  key={one.row}
                  patch={one}
                  laidKg={list.laidKg[one.row] ?? 0}
                  chosen={one.row === row}
                  onChoose={() => choose(one.row)}
                />
              ))}
            </tbody>
          </table>
        </Scroll>
      </section>
      {patch !== undefined && <Chosen list={list} patch={patch} basis={basis} book={book} />}
    </div>
  );
}
