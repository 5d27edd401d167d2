/** How buttons are laid in rows. */

/** Three in a row, or two where three would leave one alone on a row of its own, as wide as the most important. */
export const columnsFor = (buttons: number): 2 | 3 => (buttons % 3 === 1 ? 2 : 3);
