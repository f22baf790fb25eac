import { CAUTIONS } from '../../../../analysis/report/cautions.js';
import { html, type Markup } from './markup.js';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

/** The answer first, the others below it, then the few facts one looks for next. */
export function plainHeader(over: string, sentences: readonly string[], facts: readonly Fact[]): Markup {
  const [answer, ...others] = sentences;
  return html`<header class="top"><p class="overline">${over}</p>
<h1>${answer ?? over}</h1>
${others.map((sentence) => html`<p>${sentence}</p>`)}
${facts.length === 0 ? null : html`<dl class="facts">${facts.map(({ name, value }) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`}
</header>`;
}

/** What the figures rest on, and the cautions that go with every page. */
export function plainMethod(paragraphs: readonly string[]): Markup {
  return html`<section aria-labelledby="method-title"><h2 id="method-title">How to read this</h2>
${paragraphs.map((paragraph) => html`<p>${paragraph}</p>`)}
<h2>Take care</h2>
<ul>${CAUTIONS.map((caution) => html`<li>${caution}</li>`)}</ul>
</section>`;
}
