/** The books of a shift: what came in against where it is, to the gram. */
import type { Counts } from '../../machines/line/facts.ts';

const PLACES: { readonly [where: string]: string } = {
  hopper: 'in the weigh hopper',
  dryer: 'in the dryer',
  holdingBin: 'in the holding bin',
  bucket: 'in the binder bucket',
  mixer: 'in the pug mill',
};

/** Whole grams as kilograms with all three places: books are not rounded. */
const kg = (grams: number): string => `${(grams / 1000).toFixed(3).replace('-', '−')} kg`;

export function CountsTable({ counts }: { readonly counts: Counts }) {
  const { inGrams, lots, wasteGrams, waterLostGrams, held, differenceGrams } = counts;
  const rows: (readonly [words: string, grams: number])[] = [
    ...lots.map(({ lot, grams }) => [`in lot ${lot}`, grams] as const),
    ['in the waste skip', wasteGrams],
    ['water driven off', waterLostGrams],
    ...held.map(({ where, grams }) => [`still ${PLACES[where] ?? where}`, grams] as const),
  ];
  return (
    <table className="counts">
      <caption className="hidden-words">Materials of the shift</caption>
      <tbody>
        <tr>
          <th scope="row">Taken in and weighed</th>
          <td className="num">{kg(inGrams)}</td>
        </tr>
        {rows.map(([words, grams]) => (
          <tr key={words} className="soft">
            <th scope="row">{words}</th>
            <td className="num">{kg(grams)}</td>
          </tr>
        ))}
        <tr className={differenceGrams === 0 ? 'counts-sum' : 'counts-sum warn-words'}>
          <th scope="row">
            {differenceGrams === 0 ? 'The books close' : 'The books do not close: left over'}
          </th>
          <td className="num">{kg(differenceGrams)}</td>
        </tr>
      </tbody>
    </table>
  );
}
