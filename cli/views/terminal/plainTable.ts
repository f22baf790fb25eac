import { stripVTControlCharacters } from 'node:util';
import CliTable3 from 'cli-table3';
import { FRAMELESS } from './frameless.js';
import type { Style } from './style.js';

/** Rows in columns by spaces alone, bold titles above. */
export function plainTable(
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  { colors }: Style,
): string {
  const table = new CliTable3({ ...FRAMELESS, style: { 'padding-left': 0, 'padding-right': 2 } });
  table.push(titles.map((title) => (title === '' ? '' : colors.bold(title))));
  for (const row of rows) table.push([...row]);
  return linesOfTable(table).join('\n');
}

/** The lines of a table, without the spaces that fill up its last column. */
export function linesOfTable(table: CliTable3.Table): readonly string[] {
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd());
}

/** How many characters wide a text stands on screen; codes for colour take no room. */
export function visibleWidth(lines: readonly string[]): number {
  return Math.max(...lines.map((line) => [...stripVTControlCharacters(line)].length));
}

/** The columns in which some row has something to say. */
export function filledColumns(
  titles: readonly string[],
  rows: readonly (readonly string[])[],
): { readonly titles: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const filled = titles.map((_, column) => rows.some((row) => row[column] !== '' && row[column] !== '·'));
  const keep = (row: readonly string[]) => row.filter((_, column) => filled[column]);
  return { titles: keep(titles), rows: rows.map(keep) };
}

/**
 * The table with as many columns as fit the screen: those named in `droppable` go first, in that order.
 */
export function fittingTable(
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  droppable: readonly string[],
  style: Style,
): string {
  const table = plainTable(titles, rows, style);
  const [next, ...later] = droppable;
  if (next === undefined || visibleWidth(table.split('\n')) <= style.width) return table;
  const dropped = titles.indexOf(next);
  const keep = (row: readonly string[]) => row.filter((_, column) => column !== dropped);
  return fittingTable(keep(titles), rows.map(keep), later, style);
}
