/** What a list takes, by route and in all. */
import type { ListSum, PatchList } from '../../../machines/yard/patches/patch.types.ts';
import { sumsByRoute } from '../../../machines/yard/patches/take-off.ts';
import { Scroll } from './scroll.tsx';
import { mass, routeName } from './words.ts';

const COLUMNS: readonly (readonly [keyof ListSum, string])[] = [
  ['mixKg', 'Mix'],
  ['tackKg', 'Tack'],
  ['primeKg', 'Prime'],
  ['crusherRunKg', 'Crusher run'],
  ['sandKg', 'Sand'],
  ['laidKg', 'Laid'],
];

function Row({
  name,
  sum,
  whole = false,
}: {
  readonly name: string;
  readonly sum: ListSum;
  readonly whole?: boolean;
}) {
  return (
    <tr className={whole ? 'yp-whole' : ''}>
      <th scope="row">{name}</th>
      <td className="num">{sum.patches}</td>
      {COLUMNS.map(([key]) => (
        <td key={key} className="num">
          {sum[key] === 0 ? '–' : mass(sum[key])}
        </td>
      ))}
    </tr>
  );
}

export function RouteSums({ list }: { readonly list: PatchList }) {
  const routes = sumsByRoute(list.patches, list.laidKg);
  return (
    <Scroll label="What the list takes, by route">
      <table className="yp-table">
        <caption className="hidden-words">What the list takes, by route</caption>
        <thead>
          <tr>
            <th scope="col">Route</th>
            <th scope="col" className="num">
              Holes
            </th>
            {COLUMNS.map(([key, words]) => (
              <th key={key} scope="col" className="num">
                {words}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {routes.length > 1 &&
            routes.map(({ route, sum }) => <Row key={route} name={routeName(route)} sum={sum} />)}
          <Row name={routes.length > 1 ? 'In all' : routeName(routes[0]?.route ?? '')} sum={list.sum} whole />
        </tbody>
      </table>
    </Scroll>
  );
}
