import { html, type Markup, type MarkupValue } from './markup.js';

export interface NumbersTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly MarkupValue[])[];
}

/** A table whose first column names its rows; it scrolls by itself where the screen is narrow. */
export function numbersTable(caption: string, table: NumbersTable): Markup {
  return html`<div class="scroll" role="region" aria-label="${caption}" tabindex="0"><table>
<caption>${caption}</caption>
<thead><tr>${table.columns.map((column) => html`<th scope="col">${column}</th>`)}</tr></thead>
<tbody>${table.rows.map(
    ([first, ...others]) =>
      html`<tr><th scope="row">${first!}</th>${others.map((cell) => html`<td>${cell}</td>`)}</tr>\n`,
  )}</tbody></table></div>`;
}

export interface Picture {
  readonly title: string;
  /** What the picture shows and how to read it, in one or two sentences. */
  readonly caption: string;
  readonly charts: readonly Markup[];
  readonly numbers: NumbersTable;
  /** Takes the whole width of the page. */
  readonly wide?: boolean;
}

/** Charts with their caption in words and the same numbers as a table. */
export function picture({ title, caption, charts, numbers, wide = false }: Picture): Markup {
  return html`<figure class="${wide ? `picture wide${charts.length === 1 ? ' whole' : ''}` : 'picture'}">
<h3>${title}</h3>
<div class="charts">${charts.map((chart) => html`<div class="chart">${chart}</div>`)}</div>
<figcaption>${caption}</figcaption>
<details><summary>The same numbers as a table</summary>${numbersTable(title, numbers)}</details>
</figure>`;
}
