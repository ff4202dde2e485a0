/** Names for `?format=` of cells and tables, the default one first. */
export const CELL_FORMATS = { json: 'application/json', text: 'text/plain', csv: 'text/csv' } as const;

/** Where there is no number. */
export const NO_VALUE = 'n/a';
